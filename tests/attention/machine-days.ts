import type { DayRead, MachineDay } from '../../src/attention/index.js';
import type { Finding } from '../../src/findings/index.js';
import { machineRow } from '../support/check-cases.js';

/** A day of machine M1 on the 23rd of November 2026 on which nothing happened, unless told otherwise. */
export function machineDay(given: Partial<MachineDay> = {}): MachineDay {
  const row = machineRow({ location: 'Library', currency: 'EUR' });
  return {
    day: '2026-11-23',
    name: { name: 'M1', row, location: 'Library', route: null, driver: null },
    isExpected: false,
    reads: [],
    intervals: [],
    visits: [],
    latest: null,
    stock: null,
    stretches: [],
    lastStretch: null,
    findings: [],
    ...given,
  };
}

/** A read of the day, at an hour, with what was found in it. */
export function dayRead(file: string, hour: number | null, findings: readonly Finding[] = []): DayRead {
  const at = hour === null ? null : `2026-11-23T${String(hour).padStart(2, '0')}:00:00`;
  const summary = {
    machine: { asset: 'A1', serial: null, board: null, model: null, name: 'M1', location: null },
    clock: at,
    appendedAt: null,
    receivedAt: null,
    currency: 'EUR',
    decimals: 2,
    segments: { stated: 3, counted: 3 },
    integrity: { state: 'exact' as const, stated: null, computed: null },
    complete: true,
    columns: 0,
  };
  return { file, number: 0, at, summary, findings: findings.map((finding) => ({ file, read: 0, ...finding })) };
}
