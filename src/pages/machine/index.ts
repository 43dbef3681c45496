// Machine: one machine's day → its page: reads in time, sales by tray, cash as a flow, tubes, faults, where figures come from.
// In: a batch of the day. Out: page files. Must not know: files on disk, other machines' pages.
export { gatherMachines, type MachineGiven } from './machine-given.js';
export { makeMachinePages } from './machine-pages.js';
