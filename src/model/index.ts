// Model: money, local times and the rows of the office's sheets, as plain types with small pure helpers.
// In: nothing. Out: types that every later layer speaks. Must not know: bytes, segments, files.
export * from './banknotes.js';
export * from './currency.js';
export * from './group-by.js';
export * from './lists.js';
export * from './local-time.js';
export * from './machine-key.js';
export * from './machine-names.js';
export * from './money.js';
export * from './office.js';
export * from './time-of-read.js';
