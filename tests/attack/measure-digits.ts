import { takeChecked } from '../../src/captures/index.js';
import { SEGMENTS } from '../../src/dictionary/index.js';
import type { TakenRead } from '../../src/interval/index.js';
import type { CaptureListRow, CountRow } from '../../src/model/index.js';
import { readCaptures } from '../../src/read/index.js';
import { settleRound } from '../../src/settlement/index.js';
import { Roster } from '../../src/sheets/index.js';
import { startMachine } from '../day/day-scenario.js';
import { makeCount, makeMachine } from '../settlement/scenario.js';
import { buildCapture } from '../support/build-capture.js';
import { SeededRandom } from '../support/demo/seeded-random.js';
import { defineColumn, type MakerOptions, type SimulatedMachine } from '../support/simulator/index.js';

/** What became of changed digits of one element. */
export interface DigitsOfElement {
  changed: number;
  /** Without a doubt: a note at most. */
  unnamed: number;
  /** Without a doubt although a settled figure came out otherwise. */
  moved: number;
}

/** Three visits of a machine, of which the office knows all that can be known. */
interface Life {
  readonly roster: Roster;
  readonly files: readonly { readonly file: string; readonly lines: readonly string[] }[];
  readonly counts: readonly CountRow[];
}

/** Makers' ways that decide what there is to hold a figure against. */
const MAKERS: readonly Partial<MakerOptions>[] = [
  { zeroSegments: 'written', priceLists: 'both', discounts: true, denominations: true, tubes: 'CA15+CA17' },
  { zeroSegments: 'written', billsAs: 'count', readCounters: true, resetMode: 'every-read', tubes: 'CA15' },
  { zeroSegments: 'minor-left-out', resetMode: 'never', level: 5, tubes: 'none', priceLists: 'PA7' },
  { zeroSegments: 'written', billValues: false, cashSalesBookedAs: 'CA', tubes: 'CA15' },
  { zeroSegments: 'written', lifetime: 'absent', resetMode: 'service-read', readCounters: true, tubes: 'CA15' },
];

function playLife(seed: number): Life {
  const random = new SeededRandom(seed);
  const columns = [defineColumn('11', 200), defineColumn('12', 100), defineColumn('21', 150)];
  const devices = { coins: true, bills: true, card: true, secondCard: seed % 2 === 0, token: seed % 2 === 0 };
  const machine = startMachine({
    columns: columns.map((column) => ({ ...column, pastVends: 60 + random.nat(900) })),
    devices,
    maker: MAKERS[seed % MAKERS.length]!,
    past: { cardPercent: 20, billPercent: 20, changePercent: 10 },
  });
  const files = [];
  const counts: CountRow[] = [];
  const list: CaptureListRow[] = [];
  for (let visit = 0; visit < 3; visit++) {
    const day = `2026-11-${21 + visit}`;
    trade(machine, random, devices);
    const file = `${day}.dex`;
    const { read, bag } = machine.serviceVisit({ at: `${day}T10:00:00` });
    files.push({ file, lines: read.segments });
    const told = {
      signal: 20,
      filled: null,
      machine: null,
      bag: null,
      place: { file: 'captures.csv', row: visit + 2 },
    };
    list.push({ ...told, file, receivedAt: `${day}T10:00:00`, reason: 'service' });
    const { coins, bills } = bag;
    if (visit > 0) counts.push(makeCount('M1', `${day}T10:00`, { bag: `B${visit}`, coins, bills }));
  }
  const row = makeMachine({ machine: 'M1', asset: 'A100', serial: 'SN100001', currency: 'EUR', decimals: 2 });
  const has = { hasCash: true, hasBills: true, hasCard: true };
  return { roster: new Roster({ machines: [{ ...row, ...has }], capturesList: list }), files, counts };
}

/** Vends by every way of paying, test and free vends among them. */
function trade(
  machine: SimulatedMachine,
  random: SeededRandom,
  devices: { secondCard: boolean; token: boolean },
): void {
  for (let vend = 8 + random.nat(20); vend > 0; vend--) {
    const column = random.pick(['11', '12', '21']);
    const way = random.nat(10);
    if (way < 4) machine.sellForCash(column, { coins: [200, 50] });
    else if (way < 6) machine.sellForCash(column, { bills: [500] });
    else if (way < 7) machine.sellByCard(column);
    else if (way < 8) devices.secondCard ? machine.sellByCard(column, 'DB') : machine.vendTest(column);
    else if (way < 9) devices.token ? machine.sellForToken(column) : machine.vendFree(column);
    else machine.vendTest(column);
  }
}

interface TakenFile {
  readonly reads: readonly TakenRead[];
  readonly doubts: readonly string[];
}

function takeFile({ roster }: Life, file: string, lines: readonly string[]): TakenFile {
  const taken = readCaptures(buildCapture(lines)).reads.map((read) => takeChecked(file, read, { roster }));
  const doubts = taken.flatMap(({ findings }) => findings.filter(({ severity }) => severity !== 'note'));
  return { reads: taken.map((one) => one.taken), doubts: doubts.map(({ message }) => message) };
}

/** What is doubted of a life as it was taken, and all its settled figures. */
function judge(
  { counts, roster }: Life,
  taken: readonly TakenFile[],
): { readonly doubts: readonly string[]; readonly figures: string } {
  const { settlements, findings } = settleRound({ reads: taken.flatMap(({ reads }) => reads), counts, roster });
  const visits = settlements.flatMap((settlement) => settlement.visits);
  const said = [...findings, ...settlements.flatMap((one) => one.findings), ...visits.flatMap((one) => one.findings)];
  const doubts = said.filter(({ severity }) => severity !== 'note').map(({ message }) => message);
  const figures = visits.map(({ bag, state, expected, overShort, sales }) => [bag, state, expected, overShort, sales]);
  return { doubts: [...doubts, ...taken.flatMap((one) => one.doubts)], figures: JSON.stringify(figures) };
}

const KNOWN: ReadonlySet<string> = new Set(SEGMENTS.flatMap(({ elements }) => elements.map(({ name }) => name)));

/**
 * Change every digit of every element of the second of three visits' captures, make the integrity value fit again, and look at
 * what is said of it by checking, by the intervals on both sides, and by settling.
 *
 * @returns by element, such as `CA305`
 */
export function measureDigits(seeds: readonly number[]): Map<string, DigitsOfElement> {
  const found = new Map<string, DigitsOfElement>();
  for (const seed of seeds) measureLife(playLife(seed), found);
  return found;
}

function measureLife(life: Life, found: Map<string, DigitsOfElement>): void {
  const honest = life.files.map(({ file, lines }) => takeFile(life, file, lines));
  const { figures, doubts } = judge(life, honest);
  const known = new Set(doubts);
  const { file, lines } = life.files[1]!;
  for (const changed of changeDigits(lines)) {
    const after = judge(life, [honest[0]!, takeFile(life, file, changed.lines), honest[2]!]);
    const own = found.get(changed.name) ?? { changed: 0, unnamed: 0, moved: 0 };
    found.set(changed.name, own);
    own.changed++;
    if (after.doubts.some((doubt) => !known.has(doubt))) continue;
    own.unnamed++;
    if (after.figures !== figures) own.moved++;
  }
}

/** The lines of a read with one digit changed: every digit of every element of the dictionary. */
function* changeDigits(
  lines: readonly string[],
): Generator<{ readonly name: string; readonly lines: readonly string[] }> {
  for (const [place, line] of lines.entries()) {
    const elements = line.split('*');
    for (let at = 1; at < elements.length; at++) {
      const name = `${elements[0]}${String(at).padStart(2, '0')}`;
      const text = elements[at]!;
      if (!KNOWN.has(name)) continue;
      for (const [position, digit] of [...text].entries()) {
        if (!/\d/.test(digit)) continue;
        const other = (Number(digit) + 1 + ((place + position) % 9)) % 10;
        const changed = elements.with(at, `${text.slice(0, position)}${other}${text.slice(position + 1)}`);
        yield { name, lines: lines.with(place, changed.join('*')) };
      }
    }
  }
}
