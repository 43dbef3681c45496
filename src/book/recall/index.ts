// Recall: what is in the book, as if it had just come: files checked again, reads taken again, from the bytes themselves.

export { Contents } from './contents.js';
export { type EarlierCopy, readEarlierCopy, writeEarlierCopy } from './earlier-copy.js';
export { FileLabels } from './file-labels.js';
export { FilesAtHand } from './files-at-hand.js';
export { type KnownFile, readFileEntry } from './known-file.js';
export { ParsedFiles } from './parsed-files.js';
export { Recall, type RecallOptions } from './recall.js';
export { type HistoryRows, type RecalledHistories, recallHistory } from './recall-history.js';
export { type RecalledPeriod, recallPeriod } from './recall-period.js';
