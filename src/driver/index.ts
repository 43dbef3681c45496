// Driver: captures that a person chooses in a browser → the answer, on one page that needs no server.
// In: files as the browser gives them. Out: `dist/check.html`, built from this by .ci/make-check-page.mjs.
// `desk` reads and checks (in a worker where there can be one), `page` shows; between them pass messages only.
// Must not know: Node, any network. Everything of a capture or a sheet is shown as text.
import { startDeskInWorker, type WorkerScope } from './desk/start-desk.js';
import { addNewerMethods } from './newer-methods.js';
import { startPage } from './page/start-page.js';

addNewerMethods();

// One script for both, so that the page stays one file: a worker has no document.
if (typeof document === 'undefined') startDeskInWorker(globalThis as unknown as WorkerScope);
else void startPage(document.getElementById('program')?.textContent ?? '');
