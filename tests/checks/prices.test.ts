import { pricesCheck } from '../../src/checks/prices.js';
import type { PlanRow } from '../../src/model/index.js';
import type { Profile } from '../../src/profile/index.js';
import { changeSegments, checkCases, machineRow } from '../support/check-cases.js';

const planRow = (given: Partial<PlanRow>): PlanRow => ({
  machine: 'M1',
  column: '11',
  product: null,
  price: null,
  cardPrice: null,
  par: null,
  capacity: null,
  from: null,
  place: { file: 'plan.csv', row: 2 },
  ...given,
});
const plan =
  (given: Partial<PlanRow>) =>
  (column: string): PlanRow | null =>
    column === '11' ? planRow(given) : null;
const machine = machineRow();
const profile: Profile = { name: 'p', priceLists: { '3': 'card' } };
const pa7 = (list: string, device: string, price: string): string[] =>
  changeSegments({ without: ['PA1', 'PA2'], add: ['PA1*11*150', `PA7*11*${device}*${list}*${price}*1*1*1*1`] });
const la1 = (list: string, column: string, price: string): string[] =>
  changeSegments({ add: [`LA1*${list}*${column}*${price}*1*1`] });
const cardPlan = { machine, profile, plan: plan({ cardPrice: 140 }) };

checkCases('prices', pricesCheck, {
  clean: [
    { name: 'no plan', context: { machine } },
    { name: 'the planned price', context: { machine, plan: plan({ price: 150 }) } },
    { name: 'a plan without a price', context: { machine, plan: plan({}) } },
    {
      name: 'no price in the machine',
      segments: changeSegments({ put: ['PA1*11'] }),
      context: { machine, plan: plan({ price: 150 }) },
    },
    { name: 'no machine', context: { plan: plan({ price: 1 }) } },
    {
      name: 'other decimals than the roster has',
      context: { machine: machineRow({ decimals: 0 }), plan: plan({ price: 1 }) },
    },
    {
      name: 'decimals not known',
      context: { machine: machineRow({ decimals: 2 }), decimals: null, plan: plan({ price: 1 }) },
    },
    { name: 'the planned card price', segments: pa7('3', 'DA', '140'), context: cardPlan },
    { name: 'a card price on a list of unknown meaning', segments: pa7('2', 'DA', '999'), context: cardPlan },
    { name: 'a price on the card list paid in cash', segments: pa7('3', 'CA', '999'), context: cardPlan },
    {
      name: 'a card price without a profile',
      segments: pa7('3', 'DA', '999'),
      context: { ...cardPlan, profile: null },
    },
    {
      name: 'a card price without a planned one',
      segments: pa7('3', 'DA', '999'),
      context: { ...cardPlan, plan: plan({}) },
    },
    { name: 'a card list without a price', segments: la1('3', '11', ''), context: cardPlan },
    { name: "another column's card list", segments: la1('3', '12', '999'), context: cardPlan },
    { name: 'another list of the column', segments: la1('', '11', '999'), context: cardPlan },
  ],
  failing: [
    {
      name: 'a price off plan',
      context: { machine: machineRow({ decimals: 2 }), plan: plan({ price: 160 }) },
      code: 'price-off-plan',
      severity: 'doubt',
      message: /^The price is 1\.50 EUR in column 11, but 1\.60 EUR is planned\.$/,
      at: { column: '11', segment: 'PA1', element: 'PA102', expected: '160', received: '150' },
    },
    {
      name: 'a card price off plan in PA7',
      segments: pa7('3', 'DB', '145'),
      context: cardPlan,
      code: 'price-off-plan',
      severity: 'doubt',
      message: /^Cards pay 1\.45 EUR in column 11, but 1\.40 EUR is planned\.$/,
      at: { column: '11', element: 'PA704' },
    },
    {
      name: 'a card price off plan of no device',
      segments: pa7('3', '', '145'),
      context: cardPlan,
      code: 'price-off-plan',
      severity: 'doubt',
    },
    {
      // LA1: price list number, product, price (Saeco Freestanding 400, p. 29).
      name: 'a card price off plan in LA1',
      segments: la1('3', '11', '145'),
      context: cardPlan,
      code: 'price-off-plan',
      severity: 'doubt',
      at: { element: 'LA103' },
    },
  ],
});
