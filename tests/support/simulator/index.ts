// A simulated vending machine: counters as the standard has them, and the truth beside them.
// In: a configuration and operations. Out: captures as bytes, and exact figures between any two moments.
// Must not know: anything of the code under test but a type or two of its model.
export type { PaymentDevice } from './book-vend.js';
export type { Bag, Coins } from './hand-work.js';
export { fromSeconds, toSeconds } from './local-clock.js';
export * from './machine-config.js';
export * from './simulated-machine.js';
export type { Restart, Snapshot } from './snapshot.js';
export type { Payment } from './take-payment.js';
export * from './truth.js';
