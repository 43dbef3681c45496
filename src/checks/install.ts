import { adviseAtCabinet, type FindingCode, printable } from '../findings/index.js';
import { minutesBetween, pushAll } from '../model/index.js';
import type { Read } from '../read/index.js';
import { findReference } from './clock.js';
import { DEVICES, type Device, isReporting } from './devices.js';
import type { InstallCapture, InstallCheck, InstallItem, InstallOptions } from './install-item.js';
import { checkVend } from './install-vend.js';
import { findPricesOffPlan } from './prices.js';
import { countOf, listSome, READ_AGAIN, writeDuration, writeMoney, writeWhen } from './wording.js';

/**
 * Check an installation from a first capture and, where there is one, a second after one test vend.
 *
 * @param first - with everything the office knows in its context: what the roster does not say can not be missing
 * @param second - of the same machine, after exactly one vend; null when there is none yet
 */
export function checkInstall(
  first: InstallCapture,
  second: InstallCapture | null,
  options: InstallOptions = {},
): InstallCheck {
  const items = [
    checkWhole(first, 'capture', 'the capture came whole and intact'),
    checkMachine(first),
    ...DEVICES.flatMap((device) => checkDevice(first, device)),
    checkClock(first),
    checkFaults(first),
    checkPrices(first),
    checkTestVend(first.read),
  ];
  if (second !== null) {
    items.push(checkWhole(second, 'second-capture', 'the second capture came whole and intact'));
    pushAll(items, checkVend(first, second, options));
  }
  return { passed: items.every(({ state }) => state !== 'missing'), headline: writeHeadline(items), items };
}

function writeHeadline(items: readonly InstallItem[]): string {
  const missing = items.filter(({ state }) => state === 'missing');
  const unknown = items.filter(({ state }) => state === 'not-known').length;
  const open = unknown === 0 ? '' : ` ${countOf(unknown, 'point')} could not be judged.`;
  if (missing.length === 0) return `Installation passed.${open}`;
  return `Installation not passed: ${listSome(
    missing.map(({ detail }) => detail),
    3,
  )}.${open}`;
}

const CAPTURE_CODES: ReadonlySet<FindingCode> = new Set([
  'integrity-damaged',
  'integrity-absent',
  'integrity-line-endings',
  'integrity-range',
  'cut-short',
  'segment-count',
  'control-number',
  'set-count',
  'loop-open',
  'missing-segment',
  'repeated-segment',
  'orphan-segment',
  'not-a-number',
  'value-too-large',
  'overlong-element',
  'overlong-set',
]);

function checkWhole(capture: InstallCapture, id: InstallItem['id'], what: string): InstallItem {
  const all = [...(capture.fileFindings ?? []), ...capture.findings];
  const wrong = all.filter(({ code, severity }) => severity !== 'note' && CAPTURE_CODES.has(code));
  if (wrong.length === 0) return { id, what, state: 'pass', detail: 'whole and intact', advice: null };
  const worst = wrong.find(({ severity }) => severity === 'fault') ?? wrong[0]!;
  return { id, what, state: 'missing', detail: stripStop(worst.message), advice: READ_AGAIN };
}

const stripStop = (sentence: string): string => sentence.replace(/\.$/, '');

function checkMachine({ context, findings }: InstallCapture): InstallItem {
  const item = { id: 'machine', what: 'the capture is of the right machine' } as const;
  const wrong = findings.find(({ code }) => code === 'other-machine' || code === 'unknown-machine');
  if (wrong !== undefined) {
    return { ...item, state: 'missing', detail: stripStop(wrong.message), advice: wrong.advice ?? null };
  }
  const { machine } = context;
  if (machine === null) return { ...item, state: 'not-known', detail: 'no roster was given', advice: null };
  return { ...item, state: 'pass', detail: `machine ${printable(machine.machine, 40)}`, advice: null };
}

function checkDevice({ read, context }: InstallCapture, device: Device): InstallItem[] {
  const id = device.name.replace(' ', '-') as InstallItem['id'];
  const item = { id, what: `the ${device.name} reports` };
  const isExpected = context.machine === null ? null : device.isExpected(context.machine);
  const line = device.oneOf.map((segment) => read.line(segment)).find((at) => at >= 0) ?? -1;
  if (isReporting(device, read)) {
    const serial = read.block.text(line, 1) || 'no serial number';
    return [{ ...item, state: 'pass', detail: `reports as ${printable(serial, 40)}`, advice: null }];
  }
  if (isExpected === false) return [];
  const ids = device.oneOf.join(' or ');
  if (isExpected === null) {
    return [{ ...item, state: 'not-known', detail: `no ${ids}, and nothing says whether there is one`, advice: null }];
  }
  const advice = adviseAtCabinet(`Look whether the ${device.name} has power and is connected.`);
  return [{ ...item, state: 'missing', detail: `the ${device.name} does not report (${ids})`, ...advice }];
}

function checkClock({ read, context }: InstallCapture): InstallItem {
  const item = { id: 'clock', what: 'the clock is right' } as const;
  const { clock } = read;
  const advice = adviseAtCabinet("Set the machine's clock.");
  if (clock === null)
    return { ...item, state: 'missing', detail: 'the machine gives no date and time (ID5)', ...advice };
  const reference = findReference(read, context);
  if (reference === null) {
    const detail = `it shows ${writeWhen(clock)}; there is no time to hold it against`;
    return { ...item, state: 'not-known', detail, advice: null };
  }
  const ahead = minutesBetween(reference.when, clock);
  const drift = writeDuration(Math.abs(ahead));
  if (Math.abs(ahead) <= context.clockToleranceMinutes) {
    return { ...item, state: 'pass', detail: `within ${drift} of ${reference.from}`, advice: null };
  }
  const detail = `the clock is ${drift} ${ahead > 0 ? 'ahead of' : 'behind'} ${reference.from}`;
  return { ...item, state: 'missing', detail, ...advice };
}

function checkFaults({ findings }: InstallCapture): InstallItem {
  const item = { id: 'faults', what: 'no fault is active' } as const;
  const active = findings.filter(({ code, severity }) => code === 'event-active' && severity !== 'note');
  if (active.length === 0) return { ...item, state: 'pass', detail: 'none is reported', advice: null };
  const detail = `${countOf(active.length, 'fault')} active: ${listSome(active.map(({ received }) => received ?? ''))}`;
  return { ...item, state: 'missing', detail, ...adviseAtCabinet('Clear the fault.', 'food') };
}

function checkPrices({ read, context }: InstallCapture): InstallItem {
  const item = { id: 'prices', what: 'prices are as planned' } as const;
  const planned = read.columns.filter(({ id }) => context.plan(id)?.price != null);
  if (planned.length === 0)
    return { ...item, state: 'not-known', detail: 'no plan was given for this machine', advice: null };
  const silent = planned.filter(({ price }) => price === null).map(({ id }) => printable(id, 20));
  const off = findPricesOffPlan(read, context).map(
    ({ column, price, planned: due }) =>
      `${printable(column, 20)} at ${writeMoney(price, context)} for ${writeMoney(due, context)}`,
  );
  if (off.length === 0 && silent.length === 0) {
    return { ...item, state: 'pass', detail: `${countOf(planned.length, 'column')} compared`, advice: null };
  }
  const wrong = [...off, ...silent.map((column) => `${column} gives no price`)];
  return {
    ...item,
    state: 'missing',
    detail: `prices off plan: ${listSome(wrong)}`,
    ...adviseAtCabinet('Set the prices, or correct the plan.'),
  };
}

/** Test vends first, since the last reset before those of old; a paid vend shows as well that vends are counted. */
function checkTestVend(read: Read): InstallItem {
  const item = { id: 'test-vend', what: 'a vend was counted' } as const;
  const kinds = [
    [read.integer('VA204'), sumOf(read, 'PA303'), 'test vend', 'since the last reset'],
    [read.integer('VA202'), sumOf(read, 'PA301'), 'test vend', 'in all'],
    [read.integer('VA104'), sumOf(read, 'PA203'), 'paid vend', 'since the last reset'],
    [read.integer('VA102'), sumOf(read, 'PA201'), 'paid vend', 'in all'],
  ] as const;
  for (const [total, columns, what, since] of kinds) {
    const count = Math.max(total ?? 0, columns ?? 0);
    if (count > 0) return { ...item, state: 'pass', detail: `${countOf(count, what)} ${since}`, advice: null };
  }
  return {
    ...item,
    state: 'missing',
    detail: 'no vend was counted yet',
    ...adviseAtCabinet('Make a test vend, then read the machine again.'),
  };
}

function sumOf(read: Read, element: 'PA201' | 'PA203' | 'PA301' | 'PA303'): number | null {
  let sum: number | null = null;
  for (const column of read.columns) {
    const count = column.number(element);
    if (count !== null) sum = (sum ?? 0) + count;
  }
  return sum;
}
