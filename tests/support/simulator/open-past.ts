import type { CounterBank } from './counter-bank.js';
import type { MachineConfig } from './machine-config.js';

const share = (amount: number, percent: number): number => Math.floor((amount * percent) / 100);

/**
 * Give the lifetime counters a past that adds up: Σ PA2 = VA1 = CA2 + DA2; cash in = cash box + tubes + bills; cash in less
 * change = cash sales; what was filled and not paid out lies in the tubes.
 */
export function addPast(bank: CounterBank, config: MachineConfig): void {
  const booked = config.maker.cashSalesBookedAs;
  let cashSales = 0;
  for (const { column, price, cardPrice, pastVends } of config.columns) {
    const cardPercent = config.devices.coins ? config.past.cardPercent : 100;
    const card = config.devices.card ? share(pastVends, cardPercent) : 0;
    const cash = pastVends - card;
    const cardValue = card * (cardPrice ?? price);
    const cardList = cardPrice === null ? '0' : config.maker.cardList;
    bank.addPastPair(`${column}/PA2`, pastVends, cash * price + cardValue);
    bank.addPastPair('VA1', pastVends, cash * price + cardValue);
    bank.addPastPair(`${booked}2`, cash, cash * price);
    bank.addPastPair(`${column}/PA7/${booked}/0`, cash, cash * price);
    bank.addPast(`${column}/LA1/0`, cash);
    if (card > 0) {
      bank.addPastPair('DA2', card, cardValue);
      bank.addPast('DA3', cardValue);
      bank.addPastPair(`${column}/PA7/DA/${cardList}`, card, cardValue);
      bank.addPast(`${column}/LA1/${cardList}`, card);
    }
    cashSales += cash * price;
  }
  bank.addPast('CA2.value', -config.past.scar);
  addPastCash(bank, config, cashSales);
}

function addPastCash(bank: CounterBank, config: MachineConfig, cashSales: number): void {
  if (!config.devices.coins) return;
  const bill = config.money.bills[0];
  const billCount = config.devices.bills && bill ? Math.floor(share(cashSales, config.past.billPercent) / bill) : 0;
  const bills = billCount * (bill ?? 0);
  const change = share(cashSales, config.past.changePercent);
  bank.addPastPair('bills', billCount, bills);
  bank.addPast('to-box', cashSales - bills);
  bank.addPast('to-tubes', change);
  bank.addPast('dispensed', change);
  bank.addPast('cash-in', cashSales + change);
  bank.addPast(
    'filled',
    config.tubes.reduce((sum, tube) => sum + tube.value * tube.coins, 0),
  );
}
