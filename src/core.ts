// The core: everything that needs no Node, for browsers and other runtimes. A test bundles it and looks.
export * from './accounts/index.js';
export * from './attention/index.js';
export * from './bytes/index.js';
export * from './captures/index.js';
export * from './checks/index.js';
export * from './day/index.js';
export * from './dictionary/index.js';
export * from './explain/index.js';
export * from './findings/index.js';
export * from './interval/index.js';
export * from './model/index.js';
export * from './profile/index.js';
export * from './read/index.js';
export * from './report/index.js';
export * from './segments/index.js';
export * from './settlement/index.js';
export * from './sheets/index.js';
