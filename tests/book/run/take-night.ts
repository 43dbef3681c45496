import { INTAKE_LIMITS } from '../../../src/book/intake/index.js';
import { CaptureMaker } from '../../../src/book/intake/make-capture.js';
import { ReadMaker } from '../../../src/book/intake/make-read.js';
import { KeptFigures, unpackGap } from '../../../src/book/kept/index.js';
import type { BookStep, BookStore } from '../../../src/book/store/index.js';
import type { TakeOptions } from '../../../src/captures/index.js';
import type { LocalDate } from '../../../src/model/index.js';
import { Roster, readCapturesList, readMachines } from '../../../src/sheets/index.js';
import { buildCapture } from '../../support/build-capture.js';
import { gather, RECORDED_AT } from '../store/temporary-book.js';

/** A file that comes in. */
export interface NightFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Take files into a book as a night's run does, in the order given. */
export async function takeNight(
  store: BookStore,
  files: readonly NightFile[],
  take: TakeOptions,
  day: LocalDate = '2026-11-24',
): Promise<void> {
  const reads = new ReadMaker(take);
  const options = { day, recordedAt: () => RECORDED_AT, reads, isFileTimeReceived: false, limits: INTAKE_LIMITS };
  const maker = new CaptureMaker(options);
  const made = files.map(({ name, bytes }) => maker.ofBytes({ name, fileTime: null, file: null }, bytes));
  await store.recordCaptures(made.map(({ capture }) => capture));
}

/** A roster, and a captures list, as their sheets say. */
export function rosterOf(machines: string, list = ''): Roster {
  const file = 'sheet.csv';
  return new Roster({
    machines: readMachines({ file, content: Buffer.from(machines) }).rows,
    capturesList: list === '' ? [] : readCapturesList({ file, content: Buffer.from(list) }).rows,
  });
}

/** All that is worked out in a book. */
export async function workedOut(store: BookStore) {
  return { steps: await gather(store.steps()), reads: await gather(store.reads()) };
}

/** What was sold in each step that is worked out, gaps aside. */
export async function soldInSteps(store: BookStore): Promise<(number | null)[]> {
  return (await figuresOf(store)).map(({ figures }) => figures.totals.sold);
}

/** The steps that are worked out with their figures unpacked, gaps aside. */
export async function figuresOf(store: BookStore): Promise<{ step: BookStep; figures: KeptFigures }[]> {
  const steps = (await gather(store.steps())).filter((step) => unpackGap(step, String) === null);
  return steps.map((step) => ({ step, figures: new KeptFigures(step) }));
}

/** A capture of a machine of one column, as it stands at a time after so many vends at 1.50. */
export function captureAt(when: string, vends: number, segments: Readonly<Record<string, string>> = {}): Uint8Array {
  const [date, time] = when.replace(/^20/, '').replaceAll('-', '').replaceAll(':', '').split(' ') as [string, string];
  const own: Record<string, string> = {
    ID1: 'ID1*S1*MODEL-A****A1',
    ID4: 'ID4*2*978*EUR',
    CB1: 'CB1*B1',
    ID5: `ID5*${date}*${time}`,
    VA1: `VA1*${vends * 150}*${vends}`,
    PA1: 'PA1*11*150',
    PA2: `PA2*${vends}*${vends * 150}`,
    ...segments,
  };
  return buildCapture(Object.values(own).filter((segment) => segment !== ''));
}

/** Days of November 2026 at ten, one capture each, so many vends apart. */
export function dailyCaptures(days: readonly number[], segments: Readonly<Record<string, string>> = {}): NightFile[] {
  return days.map((day) => ({
    name: `${day}.dex`,
    bytes: captureAt(`2026-11-${String(day).padStart(2, '0')} 10:00`, 1000 + day * 10, segments),
  }));
}
