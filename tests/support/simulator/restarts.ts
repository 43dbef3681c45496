import { ledgerOf } from './ledger.js';
import type { MachineConfig } from './machine-config.js';
import { createState, type MachineState } from './machine-state.js';
import { valueOfTubes } from './piece-store.js';
import { beginIntervalStretch, type Restart, takeSnapshot } from './snapshot.js';

function beginEra(state: MachineState, restart: Restart): void {
  state.restarts.push(restart);
  beginIntervalStretch(state);
  state.eraStarts.push(takeSnapshot(state));
}

/** Counters from zero, and nothing remembered of reads. Coins stay where they are; so do the prices on the labels. */
function forgetCounters(state: MachineState): void {
  state.bank.clearAll();
  Object.assign(state.readMemory, { reads: 0, resets: 0, lastAt: null, lastReader: '' });
  state.doorOpenings = 0;
  state.priceChangedAt = null;
  state.clockChange = null;
  state.events.clear();
  for (const column of state.columns) column.soldOutAt = null;
}

/** A new control board: counters begin at zero, tubes keep their coins, the machine keeps its name. */
export function swapBoard(state: MachineState, board: string): void {
  forgetCounters(state);
  state.identity = { ...state.identity, board };
  state.initialisedAt = state.now + state.clockAhead;
  beginEra(state, 'board-changed');
}

/** The memory of the same board cleared. Some makers keep the first date of initialisation even then. */
export function clearMemory(state: MachineState): void {
  forgetCounters(state);
  if (state.maker.initDateOnClear === 'new') state.initialisedAt = state.now + state.clockAhead;
  beginEra(state, 'memory-cleared');
}

/** Another machine in this place, with a past of its own. What lay in the old one's box goes away with it. */
export function replaceMachine(state: MachineState, config: MachineConfig): void {
  const successor = createState({ ...config, money: state.config.money });
  state.config = successor.config;
  forgetCounters(state);
  state.collected.box += state.cashBox.total;
  state.collected.bills += state.stacker.total;
  state.collected.hand += state.hand.total;
  for (const store of [state.cashBox, state.stacker, state.hand]) store.empty();
  state.identity = successor.identity;
  state.maker = successor.maker;
  state.initialisedAt = successor.initialisedAt;
  state.bank.copyFrom(successor.bank);
  state.columns.splice(0, state.columns.length, ...successor.columns);
  for (const { column } of state.columns) ledgerOf(state.ledger, column);
  state.tubeBase += valueOfTubes(successor.tubes) - valueOfTubes(state.tubes);
  state.tubes = successor.tubes;
  beginEra(state, 'other-machine');
}
