// Kept: what was worked out of reads, small enough to be kept in the book, and taken up again without the captures.
// In: reads with what checks found of them, steps from read to read. Out: the same again, or nothing where what they rest on
// has changed since. The one place that says what each kept thing rests on, and whether it still fits.
// Must not know: the database, how anything is shown.
export { nameEntry, putFilesIn } from './file-marks.js';
export { type KeptRead, packRead, retellFacts, takeUpRead, unpackFacts } from './kept-read.js';
export { type KnownRead, knowRead } from './know-read.js';
export { KeptFigures, packGap, packStep, unpackGap, unpackStep } from './pack-step.js';
export { digestOffice, fitsStep, type OfficeOptions, RULES_VERSION, sealRead, sealStep } from './rests-on.js';
