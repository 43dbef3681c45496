// Trend: what a machine sold from read to read → its trend page: sold a day, how long columns last, with the uncertainty.
// In: stretches of the past, the day's intervals, what columns hold. Out: page files. Must not know: files on disk.
export { type Limits, limitMean, limitWait } from './limits.js';
export { type ColumnTrend, type MachineTrend, makeTrend } from './trend.js';
export { trendPageName } from './trend-page-name.js';
export { makeTrendOf, makeTrendPages } from './trend-pages.js';
