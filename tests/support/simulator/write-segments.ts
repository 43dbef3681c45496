import type { MachineState } from './machine-state.js';
import { writeCashlessSegments, writeCashSegments } from './write-cash-segments.js';
import { saleCells, writeCounters } from './write-counters.js';
import { writeEventSegments, writeIdentitySegments } from './write-machine-segments.js';
import { writePriceListSegments, writeProductSegments } from './write-product-segments.js';

/** The data segments of a read of this machine, as they stand before the read's own reset. */
export function writeSegments(state: MachineState, reader: string, isReset: boolean): string[] {
  const { maker } = state;
  const paid = maker.discounts ? [...saleCells('VA1'), ...saleCells('VA1.discount')] : saleCells('VA1');
  return [
    ...writeIdentitySegments(state),
    ...writeCounters(state, 'VA1', 'major', [], paid),
    ...writeCounters(state, 'VA2', 'minor', [], saleCells('VA2')),
    ...writeCounters(state, 'VA3', 'minor', [], saleCells('VA3')),
    ...writeCashSegments(state),
    ...writeCashlessSegments(state),
    ...writeProductSegments(state),
    ...writePriceListSegments(state),
    ...writeEventSegments(state, reader, isReset),
  ];
}
