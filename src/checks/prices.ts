import { ELEMENT } from '../dictionary/index.js';
import { adviseAtCabinet, type Finding, makeFinding, type Place, printable } from '../findings/index.js';
import { type Minor, pushAll } from '../model/index.js';
import { type Column, locate, type Read } from '../read/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';
import { writeMoney } from './wording.js';

const SET_PRICE = adviseAtCabinet('Set the price, or correct the plan.');
const CARD_DEVICES = new Set(['DA', 'DB']);

/** A price in the machine that is not the planned one. */
export interface OffPlan {
  readonly column: string;
  readonly kind: 'label' | 'card';
  readonly price: Minor;
  readonly planned: Minor;
  readonly place: Place;
}

/** Says which columns are priced off plan: customers see the label, sales or not. */
export const pricesCheck: Check = {
  codes: ['price-off-plan'],
  summary: 'Whether the prices in the machine are those of the plan; card prices where the plan has one.',
  reference: 'domain rule; what a price list stands for is the maker (Saeco Freestanding 400, p. 29): a profile says',
  run(read, context) {
    if (context.machine === null || !hasPlanMoney(context)) return NOTHING;
    const off = findPricesOffPlan(read, context);
    return off.length === 0 ? NOTHING : off.map((one) => describe(one, context));
  },
};

/** Plan prices are in the roster's decimals: where the machine keeps others they can not be compared. */
function hasPlanMoney({ machine, decimals }: CheckContext): boolean {
  return machine?.decimals == null || machine.decimals === decimals;
}

/** Every price of a read that differs from the plan in force. */
export function findPricesOffPlan(read: Read, context: CheckContext): OffPlan[] {
  const off: OffPlan[] = [];
  const cardLists = findCardLists(read, context);
  for (const column of read.columns) {
    const row = context.plan(column.id);
    if (row === null) continue;
    const { price } = column;
    if (row.price !== null && price !== null && price !== row.price) {
      off.push({ column: column.id, kind: 'label', price, planned: row.price, place: column.place(ELEMENT.PA102) });
    }
    if (row.cardPrice !== null && cardLists !== null)
      pushAll(off, findCardOffPlan(read, column, row.cardPrice, cardLists));
  }
  return off;
}

/** Which price lists are for cards, and the LA1 lines of those; null where no profile says. */
interface CardLists {
  readonly has: (list: string) => boolean;
  readonly lines: readonly number[];
}

function findCardLists(read: Read, { profile }: CheckContext): CardLists | null {
  const lists = profile?.priceLists;
  if (lists === undefined) return null;
  const has = (list: string): boolean => Object.hasOwn(lists, list) && lists[list] === 'card';
  return { has, lines: read.lines('LA1').filter((line) => has(read.block.text(line, 1) ?? '')) };
}

function findCardOffPlan(read: Read, column: Column, planned: Minor, lists: CardLists): OffPlan[] {
  const found: { price: Minor | null; line: number; position: number }[] = [];
  for (const { device, list, price, line } of column.payments) {
    if (lists.has(list) && (CARD_DEVICES.has(device) || device === '')) found.push({ price, line, position: 4 });
  }
  for (const line of lists.lines) {
    const isOwn = read.block.text(line, 2) === column.id;
    if (isOwn) found.push({ price: read.block.number(line, 3), line, position: 3 });
  }
  const first = found.find(({ price }) => price !== null && price !== planned);
  if (first === undefined) return [];
  const place = { ...locate(read, first.line, first.position), column: column.id };
  return [{ column: column.id, kind: 'card', price: first.price!, planned, place }];
}

function describe({ column, kind, price, planned, place }: OffPlan, context: CheckContext): Finding {
  const what = kind === 'card' ? 'Cards pay' : 'The price is';
  return makeFinding(
    'price-off-plan',
    `${what} ${writeMoney(price, context)} in column ${printable(column, 20)}, but ${writeMoney(planned, context)} is planned.`,
    { ...place, expected: String(planned), received: String(price), ...SET_PRICE },
  );
}
