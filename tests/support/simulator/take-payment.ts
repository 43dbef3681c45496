import type { MachineState } from './machine-state.js';

/** Coins and bills a customer puts in, each a value in minor units. */
export interface Payment {
  readonly coins?: readonly number[];
  readonly bills?: readonly number[];
}

/** Put money in: a coin goes to its tube while there is room, else to the cash box; a bill to the stacker. */
export function insertMoney(state: MachineState, payment: Payment): void {
  for (const coin of payment.coins ?? []) insertCoin(state, coin);
  for (const bill of payment.bills ?? []) insertBill(state, bill);
}

function insertCoin(state: MachineState, value: number): void {
  const { bank, ledger } = state;
  if (!state.config.devices.coins || !state.config.money.coins.includes(value))
    throw new RangeError(`no coin ${value}`);
  const tube = state.tubes.find((candidate) => candidate.value === value && candidate.coins < candidate.capacity);
  countCashIn(state, value);
  bank.add(`coin/${value}/accepted`, 1);
  if (tube) {
    tube.coins += 1;
    bank.add(`coin/${value}/to-tubes`, 1);
    bank.add('to-tubes', value);
    ledger.cash.toTubes += value;
  } else {
    state.cashBox.add(value);
    bank.add(`coin/${value}/to-box`, 1);
    bank.add('to-box', value);
    ledger.cash.toCashBox += value;
  }
}

function insertBill(state: MachineState, value: number): void {
  if (!state.config.devices.bills || !state.config.money.bills.includes(value))
    throw new RangeError(`no bill ${value}`);
  countCashIn(state, value);
  state.stacker.add(value);
  state.bank.add(`bill/${value}`, 1);
  state.bank.addPair('bills', value);
  state.ledger.cash.bills += value;
  state.ledger.cash.billCount += 1;
}

function countCashIn(state: MachineState, value: number): void {
  state.credit += value;
  state.bank.add('cash-in', value);
  state.ledger.cash.cashIn += value;
}

/**
 * Pay what credit is left from the tubes, largest coins first, and book what they cannot pay as overpaid.
 *
 * @returns what was paid out and what the customer lost
 */
export function payChange(state: MachineState): { readonly paid: number; readonly overpaid: number } {
  let due = state.credit;
  const { bank, ledger } = state;
  for (const tube of [...state.tubes].sort((a, b) => b.value - a.value)) {
    const coins = Math.min(tube.coins, Math.floor(due / tube.value));
    if (coins === 0) continue;
    tube.coins -= coins;
    due -= coins * tube.value;
    bank.add(`coin/${tube.value}/dispensed`, coins);
  }
  const paid = state.credit - due;
  bank.add('dispensed', paid);
  ledger.cash.dispensed += paid;
  bank.add('overpaid', due);
  ledger.cash.overpaid += due;
  state.credit = 0;
  return { paid, overpaid: due };
}
