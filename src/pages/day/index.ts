// Day pages: what came in, what has to be looked at, routes and machines → index.html and its further parts.
// In: the joined day, and what was kept of every batch. Out: files. Must not know: reads, what machines' pages show.
export { DayDigest, type FileLine, type MachineLine } from './day-digest.js';
export { type DayPagesGiven, makeDayPages } from './day-pages.js';
