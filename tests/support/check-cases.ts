import { describe, expect, it } from 'vitest';
import type { Check, CheckContext } from '../../src/checks/check.js';
import type { Finding, FindingCode, Severity } from '../../src/findings/index.js';
import type { MachineRow } from '../../src/model/index.js';
import { type Read, readCaptures } from '../../src/read/index.js';
import { buildCapture, type CaptureOptions } from './build-capture.js';

/** The data segments of a small machine with cash and card of which every check has nothing to say. */
export const GOOD_SEGMENTS: readonly string[] = [
  'ID1*SN1*MODEL-A*1.0***A1*6*1',
  'ID4*2*978*EUR',
  'ID5*261124*1015',
  'CB1*CB1*BOARD*1',
  'CA1*CM1*COIN*1',
  'BA1*BV1*BILL*1',
  'DA1*CR1*CARD*1',
  'VA1*3000*20*600*4',
  'VA2*100*1*0*0',
  'CA2*2000*14*400*3',
  'CA3*500*300*100*100*2500*1500*600*400',
  'CA4*50*0*300*0',
  'CA15*600',
  'CA17*0*50*4',
  'CA17*1*100*4',
  'DA2*1000*6*200*1',
  'PA1*11*150',
  'PA2*10*1500*2*300',
  'PA1*12*150',
  'PA2*10*1500*2*300',
  'EA2*EGS*0*1*0',
  'EA3*5*261124*1015*R1*261117*1010*R1**9*5',
  'MA5*TEMP*41*5',
];

/** {@link GOOD_SEGMENTS} with segments put in place of the first with the same identifier, left out, and added before EA2. */
export function changeSegments(changes: {
  readonly put?: readonly string[];
  readonly without?: readonly string[];
  readonly add?: readonly string[];
}): string[] {
  const idOf = (segment: string): string => segment.split('*')[0]!;
  const segments = GOOD_SEGMENTS.filter((segment) => !changes.without?.includes(idOf(segment)));
  for (const segment of changes.put ?? []) {
    segments[segments.findIndex((other) => idOf(other) === idOf(segment))] = segment;
  }
  segments.splice(
    segments.findIndex((segment) => segment.startsWith('EA2')),
    0,
    ...(changes.add ?? []),
  );
  return segments;
}

/** A context in which nothing is known but the capture. */
export const PLAIN_CONTEXT: CheckContext = {
  file: 'case.dex',
  machine: null,
  hasRoster: false,
  saidMachine: null,
  saidName: null,
  plan: () => null,
  profile: null,
  missingProfile: null,
  receivedAt: null,
  isLaterCopy: false,
  signal: null,
  clockToleranceMinutes: 10,
  lastGood: null,
  currency: 'EUR',
  decimals: 2,
};

/** A roster's machine of which the sheet says nothing but its name and asset, unless told otherwise. */
export function machineRow(given: Partial<MachineRow> = {}): MachineRow {
  return {
    machine: 'M1',
    asset: 'A1',
    serial: null,
    location: null,
    route: null,
    driver: null,
    currency: null,
    decimals: null,
    hasCash: null,
    hasBills: null,
    hasCard: null,
    profile: null,
    active: null,
    commission: null,
    commissionBase: null,
    tax: null,
    taxIncluded: null,
    place: { file: 'machines.csv', row: 2 },
    ...given,
  };
}

/** The first read of a file. */
export function readFirst(bytes: Uint8Array): Read {
  const [read] = readCaptures(bytes).reads;
  if (read === undefined) throw new Error('the case holds no read');
  return read;
}

/** One capture for a check: segments (default {@link GOOD_SEGMENTS}) with the way they are sent, or bytes. */
export interface CheckCase {
  readonly name: string;
  readonly segments?: readonly string[];
  readonly capture?: CaptureOptions;
  readonly bytes?: Uint8Array;
  readonly context?: Partial<CheckContext>;
}

/** A case in which the check must say something. */
export interface FailingCase extends CheckCase {
  readonly code: FindingCode;
  readonly severity: Severity;
  /** Must match the message of the first finding with the code. */
  readonly message?: RegExp;
  /** Keys that finding must have, such as line and element. */
  readonly at?: Partial<Finding>;
  /** How many findings the check gives; default 1. */
  readonly count?: number;
}

/** Run one check on one case. */
export function runCase(check: Check, given: CheckCase): readonly Finding[] {
  const bytes = given.bytes ?? buildCapture(given.segments ?? GOOD_SEGMENTS, given.capture);
  return check.run(readFirst(bytes), { ...PLAIN_CONTEXT, ...given.context });
}

/**
 * Test a check: it says nothing on the clean cases (the good capture always among them), what it should on the failing
 * ones, and each of its codes is found in one of those.
 */
export function checkCases(
  title: string,
  check: Check,
  cases: { readonly clean?: readonly CheckCase[]; readonly failing: readonly FailingCase[] },
): void {
  describe(title, () => {
    it.each([{ name: 'a good capture' }, ...(cases.clean ?? [])])('says nothing of $name', (given: CheckCase) => {
      expect(runCase(check, given)).toEqual([]);
    });

    it.each(cases.failing)('says $code of $name', (given) => {
      const findings = runCase(check, given);
      expect(findings).toHaveLength(given.count ?? 1);
      const finding = findings.find(({ code }) => code === given.code);
      expect(finding).toMatchObject({ severity: given.severity, ...given.at });
      if (given.message !== undefined) expect(finding!.message).toMatch(given.message);
      expect(finding!.message).toMatch(/\.$/);
    });

    it('has a case for each of its codes', () => {
      expect(new Set(cases.failing.map(({ code }) => code))).toEqual(new Set(check.codes));
    });
  });
}
