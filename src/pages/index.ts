// Pages: a day's figures → static HTML that opens from disk.
// In: days and the inputs they were made from, settlements, how they were closed. Out: files as text.
// Must not know: disks, the network, where the figures are kept. No page needs a script.
export * from './day/index.js';
export * from './frame/index.js';
export { makeMachinePages } from './machine/index.js';
export type { MachinePagesMaker, PagesBatch } from './machine-pages-maker.js';
export * from './settlement/index.js';
export { makeTrendPages } from './trend/index.js';
export { type PagesOptions, PagesWriter } from './write-pages.js';
