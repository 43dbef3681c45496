import { Desk } from './desk.js';
import type { Report, Request } from './messages.js';

/** What is used of a worker's own scope; the browser's types have it for pages only. */
export interface WorkerScope {
  onmessage: ((event: { readonly data: Request }) => void) | null;
  readonly postMessage: (report: Report) => void;
}

/** Open the desk in a worker: every message in is a request, every message out a report. */
export function startDeskInWorker(scope: WorkerScope): void {
  const desk = new Desk({
    tell: (report) => scope.postMessage(report),
    // Files are opened between one capture and the next, and messages come in meanwhile.
    pause: () => Promise.resolve(),
    now: () => performance.now(),
  });
  scope.onmessage = ({ data }) => void desk.handle(data);
  scope.postMessage({ tell: 'ready' });
}
