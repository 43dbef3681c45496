// The library for Node: the core, and the faces that read files, folders and standard input.
export * from './core.js';
export * from './io/index.js';
