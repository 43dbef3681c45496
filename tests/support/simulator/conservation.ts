import type { MachineState } from './machine-state.js';
import { valueOfTubes } from './piece-store.js';

/**
 * Money neither appears nor vanishes. The pieces lying in box, stacker, tubes and hand are counted piece by piece, the
 * ledger by flows; where they part, the simulator itself is wrong, and no truth of its can be used.
 */
export function assertConserved(state: MachineState): void {
  const { cash, columns } = state.ledger;
  const sales = [...columns.values()].reduce((sum, column) => sum + column.value, 0);
  const byAmount = [...columns.values()].reduce(
    (sum, column) => sum + [...column.charged].reduce((part, [price, count]) => part + price * count, 0),
    0,
  );
  const pairs: readonly (readonly [what: string, found: number, due: number])[] = [
    ['cash box', state.cashBox.total, cash.toCashBox - state.collected.box],
    ['stacker', state.stacker.total, cash.bills - state.collected.bills],
    ['hand', state.hand.total, cash.byHand - cash.filled - state.unenteredFills - state.collected.hand],
    [
      'tubes',
      valueOfTubes(state.tubes) - state.tubeBase,
      cash.toTubes - cash.dispensed - cash.byHand + cash.filled + cash.tubesUnrecorded,
    ],
    ['cash in', cash.cashIn, cash.toCashBox + cash.toTubes + cash.bills],
    ['customers', cash.cashIn - cash.dispensed, cash.cashSales + cash.overpaid + cash.creditedToCards + state.credit],
    ['sales', sales, cash.cashSales + cash.card1Sales + cash.card2Sales + cash.tokenSales],
    ['booked', cash.cashSales + cash.card1Sales + cash.card2Sales, cash.bookedCashSales + cash.bookedCardSales],
    ['charged', byAmount, sales],
  ];
  for (const [what, found, due] of pairs) {
    if (found !== due) throw new Error(`simulator: ${what} holds ${found}, and ${due} went in`);
  }
}
