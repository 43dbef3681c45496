import { buildCapture, bytesOf, textOf } from '../build-capture.js';
import { DAYS } from './demo-roster.js';
import type { DemoLife, DemoRead } from './play-days.js';

/** What happened to a file on its way. */
export type CaptureFault = 'byte-changed' | 'cut-short' | 'same-bytes-again' | 'line-endings-changed';

/** A capture file as it arrived. */
export interface DemoCapture extends Omit<DemoRead, 'read'> {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly receivedAt: string;
  readonly signal: number | null;
  readonly fault: CaptureFault | null;
  /** What exactly was done to it, and to which file it is a second one. */
  readonly detail: string | null;
}

const EVENING_2 = DAYS[1];
const EVENING_3 = DAYS[2];

/**
 * Signal strength 1 to 31 as a modem reports it; below 13, gaps in transmission are to be expected (common practice).
 * A handheld on a cable has none.
 */
function signalOf(read: DemoRead): number | null {
  if (read.reason === 'service') return null;
  const place = Number(read.machine.slice(-1));
  return 14 + ((place * 5 + Number(read.at.slice(8, 10))) % 14);
}

const nameOf = ({ machine, at }: DemoRead): string =>
  `${at.slice(0, 10)}-${at.slice(11, 16).replace(':', '')}-${machine.toLowerCase()}`;

function arrive(read: DemoRead, change: Partial<DemoCapture> = {}): DemoCapture {
  const { read: taken, ...rest } = read;
  const seconds = read.reason === 'service' ? '35' : '20';
  return {
    ...rest,
    file: `${nameOf(read)}.dex`,
    bytes: taken.bytes,
    receivedAt: `${read.at.slice(0, 17)}${seconds}`,
    signal: signalOf(read),
    fault: null,
    detail: null,
    ...change,
  };
}

/** One digit of a column's sales made another, as noise on a line would. */
function changeByte(read: DemoRead): DemoCapture {
  const text = textOf(read.read.bytes);
  const at = text.indexOf('*', text.indexOf('PA2*', text.indexOf('PA1*22*')) + 4) + 1;
  const bytes = read.read.bytes.slice();
  bytes[at] = bytes[at] === 0x39 ? 0x31 : bytes[at]! + 1;
  const detail = `byte ${at}: ${JSON.stringify(text[at])} became ${JSON.stringify(String.fromCharCode(bytes[at]!))}`;
  return arrive(read, { bytes, fault: 'byte-changed', detail, signal: 9 });
}

/** Cut inside the sales of the column after 24. */
function cutShort(read: DemoRead): DemoCapture {
  const text = textOf(read.read.bytes);
  const at = text.indexOf('PA2*', text.indexOf('PA1*25*')) + 7;
  const detail = `cut after ${at} of ${text.length} bytes, inside PA2 of column 25`;
  return arrive(read, { bytes: bytesOf(text.slice(0, at)), fault: 'cut-short', detail, signal: 4 });
}

function arriveAgain(read: DemoRead): DemoCapture {
  const first = arrive(read);
  const detail = `the bytes of ${first.file}, sent again`;
  const receivedAt = `${read.at.slice(0, 11)}23:05:10`;
  return { ...first, file: `${nameOf(read)}-again.dex`, receivedAt, fault: 'same-bytes-again', detail };
}

function arriveByMail(read: DemoRead): DemoCapture {
  const first = arrive(read);
  const text = textOf(
    buildCapture(read.read.segments, { dxsLine: textOf(read.read.bytes).split('\r\n')[0]!, eol: '\n' }),
  );
  const detail = `the read of ${first.file}, mailed, with LF for CR LF`;
  const receivedAt = `${read.at.slice(0, 11)}23:31:45`;
  return {
    ...first,
    file: `${nameOf(read)}-mailed.dex`,
    bytes: bytesOf(text),
    receivedAt,
    fault: 'line-endings-changed',
    detail,
  };
}

/** How the files of one read arrived: most as they were sent, some harmed, some twice, one not at all. */
function arriveAll(read: DemoRead): DemoCapture[] {
  const { machine, reason } = read;
  const day = read.at.slice(0, 10);
  const isScheduled = reason === 'scheduled';
  if (machine === 'V107' && isScheduled && day === EVENING_3) return [changeByte(read)];
  if (machine === 'V104' && isScheduled && day === EVENING_2) return [cutShort(read)];
  if (machine === 'V101' && isScheduled && day === EVENING_2) return [arrive(read), arriveAgain(read)];
  if (machine === 'V101' && isScheduled && day === EVENING_3) return [arrive(read), arriveByMail(read)];
  if (machine === 'V108' && !isScheduled && day === DAYS.at(-1)) return [];
  return [arrive(read)];
}

/** Every capture file of the demo, in the order received. */
export function collectCaptures(lives: readonly DemoLife[]): readonly DemoCapture[] {
  const captures = lives.flatMap((life) => life.reads.flatMap(arriveAll));
  return captures.sort((a, b) => (a.receivedAt < b.receivedAt ? -1 : a.receivedAt > b.receivedAt ? 1 : 0));
}
