import { Desk } from '../desk/desk.js';
import type { Report, Request } from '../desk/messages.js';

/** The way from the page to the desk. */
export interface DeskLink {
  readonly ask: (request: Request) => void;
  /** Where files are read and checked. */
  readonly place: 'worker' | 'page';
}

/** A worker that says nothing for so long, in milliseconds, will not start. */
const PATIENCE = 4000;
/** So long, in milliseconds, the page may be kept busy where there is no worker. */
const SLICE = 12;

/**
 * Open the desk in a worker made of the page's own script; some browsers allow none to a page opened from disk, and then it
 * works within the page, a slice at a time.
 *
 * @param script - the text of the script
 * @param tell - told of every report of the desk
 */
export async function openDesk(script: string, tell: (report: Report) => void): Promise<DeskLink> {
  const worker = await startWorker(script);
  if (worker === null) return openDeskInPage(tell);
  worker.onmessage = ({ data }: MessageEvent<Report>) => tell(data);
  worker.onerror = ({ message }) => tell({ tell: 'failed', message });
  return { ask: (request) => worker.postMessage(request), place: 'worker' };
}

/** Resolves to null where no worker starts. */
function startWorker(script: string): Promise<Worker | null> {
  return new Promise((resolve) => {
    let worker: Worker;
    const url = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
    const end = (started: Worker | null): void => {
      clearTimeout(timer);
      URL.revokeObjectURL(url);
      if (started === null) worker?.terminate();
      resolve(started);
    };
    const timer = setTimeout(() => end(null), PATIENCE);
    try {
      worker = new Worker(url);
    } catch {
      end(null);
      return;
    }
    worker.onmessage = () => end(worker);
    worker.onerror = (event) => {
      event.preventDefault();
      end(null);
    };
  });
}

/** Open the desk within the page. */
export function openDeskInPage(tell: (report: Report) => void): DeskLink {
  let began = performance.now();
  const pause = async (): Promise<void> => {
    if (performance.now() - began < SLICE) return;
    await new Promise((resolve) => setTimeout(resolve));
    began = performance.now();
  };
  const desk = new Desk({ tell, pause, now: () => performance.now() });
  return { ask: (request) => void desk.handle(request), place: 'page' };
}
