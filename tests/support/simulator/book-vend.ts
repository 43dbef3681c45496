import { ledgerOf } from './ledger.js';
import { type ColumnState, clockOf, findColumn, type MachineState } from './machine-state.js';
import { valueOfTubes } from './piece-store.js';
import { insertMoney, type Payment, payChange } from './take-payment.js';

/** Payment devices as PA702 names them. */
export type PaymentDevice = 'CA' | 'DA' | 'DB' | 'TA';

interface PaidVend {
  readonly device: PaymentDevice;
  readonly list: string;
  readonly price: number;
  readonly discount: number;
}

/** Book a paid vend, net of its discount (from memory of the standard: PA2, VA1, CA2 and DA2 are what was charged). */
function bookPaidVend(state: MachineState, column: ColumnState, vend: PaidVend): void {
  const { bank, ledger } = state;
  const charged = vend.price - vend.discount;
  bank.addPair('VA1', charged);
  bank.addPair(`${vend.device}2`, charged);
  bank.addPair(`${column.column}/PA2`, charged);
  bank.addPair(`${column.column}/PA7/${vend.device}/${vend.list}`, charged);
  bank.add(`${column.column}/LA1/${vend.list}`, 1);
  const entry = ledgerOf(ledger, column.column);
  entry.sold += 1;
  entry.value += charged;
  entry.charged.set(charged, (entry.charged.get(charged) ?? 0) + 1);
  if (vend.discount === 0) return;
  bank.addPair('VA1.discount', vend.discount);
  bank.addPair(`${column.column}/PA2.discount`, vend.discount);
  if (vend.device !== 'TA') bank.addPair(vend.device === 'CA' ? 'CA7' : `${vend.device}5`, vend.discount);
  entry.discounted += 1;
  entry.discounts += vend.discount;
}

/** A customer pays with coins and bills; change comes from the tubes. Wrong use when the money does not reach. */
export function vendForCash(state: MachineState, name: string, payment: Payment, discount = 0): void {
  const column = findColumn(state, name);
  const charged = column.price - discount;
  const offered = [...(payment.coins ?? []), ...(payment.bills ?? [])].reduce(
    (sum, piece) => sum + piece,
    state.credit,
  );
  if (offered < charged) throw new RangeError(`${offered} does not buy column ${name} at ${charged}`);
  const { cash } = state.ledger;
  const isExactChange = valueOfTubes(state.tubes) < state.maker.exactChangeBelow;
  insertMoney(state, payment);
  state.credit -= charged;
  const device = state.maker.cashSalesBookedAs;
  bookPaidVend(state, column, { device, list: '0', price: column.price, discount });
  cash.cashSales += charged;
  cash[device === 'CA' ? 'bookedCashSales' : 'bookedCardSales'] += charged;
  cash.cashDiscounts += discount;
  if (isExactChange) {
    state.bank.add('exact-change', charged);
    cash.exactChange += charged;
  }
  payChange(state);
}

/** A customer pays by card on the first or second cashless device, at the card list's price where there is one. */
export function vendForCard(state: MachineState, name: string, device: 'DA' | 'DB' = 'DA', discount = 0): void {
  const { devices } = state.config;
  if (!(device === 'DA' ? devices.card : devices.secondCard)) throw new RangeError(`no device ${device}`);
  const column = findColumn(state, name);
  const price = column.cardPrice ?? column.price;
  const list = column.cardPrice === null ? '0' : state.maker.cardList;
  bookPaidVend(state, column, { device, list, price, discount });
  state.bank.add(`${device}3`, price - discount);
  const { cash } = state.ledger;
  cash[device === 'DA' ? 'card1Sales' : 'card2Sales'] += price - discount;
  cash.bookedCardSales += price - discount;
  cash.cardDiscounts += discount;
}

/** A customer pays with a token that stands for one vend, whatever its price. */
export function vendForToken(state: MachineState, name: string): void {
  if (!state.config.devices.token) throw new RangeError('no token device');
  const column = findColumn(state, name);
  bookPaidVend(state, column, { device: 'TA', list: '0', price: column.price, discount: 0 });
  state.ledger.cash.tokenSales += column.price;
}

/** A technician's test vend: nothing is paid. */
export function vendForTest(state: MachineState, name: string): void {
  const { price } = findColumn(state, name);
  state.bank.addPair('VA2', price);
  state.bank.addPair(`${name}/PA3`, price);
  state.bank.add(`${name}/LA1/5`, 1);
  const entry = ledgerOf(state.ledger, name);
  entry.test += 1;
  entry.testValue += price;
}

/** A free vend: nothing is paid. */
export function vendForFree(state: MachineState, name: string): void {
  const { price } = findColumn(state, name);
  state.bank.addPair('VA3', price);
  state.bank.addPair(`${name}/PA4`, price);
  state.bank.add(`${name}/LA1/4`, 1);
  const entry = ledgerOf(state.ledger, name);
  entry.free += 1;
  entry.freeValue += price;
}

/** Cash put onto a card: it is cash in, and no sale. */
export function revalueCard(state: MachineState, payment: Payment): void {
  if (!state.config.devices.card) throw new RangeError('no card reader');
  insertMoney(state, payment);
  state.bank.add('DA4', state.credit);
  state.ledger.cash.creditedToCards += state.credit;
  state.credit = 0;
}

/** The last piece of a column was sold. */
export function markSoldOut(state: MachineState, name: string): void {
  findColumn(state, name).soldOutAt = clockOf(state);
  state.bank.add(`${name}/PA5`, 1);
}
