import { writeClock } from './local-clock.js';
import { clockOf, type MachineState } from './machine-state.js';
import { writeLine } from './segment-line.js';

/** ID1 to DB1: who the machine is, its money, its clock and the devices it has. */
export function writeIdentitySegments(state: MachineState): string[] {
  const { identity, config, maker } = state;
  const { money, devices } = config;
  const [date, time, seconds] = writeClock(clockOf(state), maker.clockStyle);
  const { serial, model, software, location, asset, board } = identity;
  const level = maker.level;
  return [
    writeLine('ID1', serial, model, software, location, '', asset, level, level === 6 ? 1 : 0),
    writeLine('ID4', money.decimals, money.numeric, money.currency),
    writeLine('ID5', date, time, seconds),
    writeLine('CB1', board, `${model}-CB`, software),
    ...(devices.coins ? [writeLine('CA1', `CM${serial}`, 'COIN-1', '2.10')] : []),
    ...(devices.bills ? [writeLine('BA1', `BV${serial}`, 'BILL-1', '3.04')] : []),
    ...(devices.card ? [writeLine('DA1', `CR${serial}`, 'CARD-1', '5.2')] : []),
    ...(devices.secondCard ? [writeLine('DB1', `CS${serial}`, 'CARD-2', '1.0')] : []),
    ...(devices.token ? [writeLine('TA1', `TK${serial}`, 'TOKEN-1', '1.1')] : []),
  ];
}

function writeEvents(state: MachineState): string[] {
  const { bank, maker } = state;
  const lines: string[] = [];
  for (const [code, event] of state.events) {
    const [date, time] = writeClock(event.since, maker.clockStyle);
    lines.push(writeLine('EA1', code, date, time));
  }
  for (const [code, event] of state.events) {
    const key = `event/${code}`;
    lines.push(writeLine('EA2', code, bank.interval(key), bank.lifetime(key), event.active ? 1 : 0));
  }
  return lines;
}

/** EA3, before this read is remembered. EA309 and EA310 by one manual (L0190D, p. 42); makers differ on EA301. */
function writeReads(state: MachineState, reader: string, isReset: boolean): string {
  const { maker, readMemory } = state;
  const self = maker.readCountsItself ? 1 : 0;
  const reads = readMemory.reads + self;
  const resets = readMemory.resets + (isReset ? self : 0);
  // A reading identifier is no count: this one climbs by more than one and starts high.
  const first = { resets, reads, 'reading-id': 4000 + reads * 3 }[maker.ea301];
  const last = readMemory.lastAt === null ? ['', ''] : writeClock(readMemory.lastAt, maker.clockStyle);
  const [date, time] = writeClock(clockOf(state), maker.clockStyle);
  const counters = maker.readCounters ? [reads, resets] : [];
  return writeLine('EA3', first, date, time, reader, last[0]!, last[1]!, readMemory.lastReader, '', ...counters);
}

/** EA1 to MA5, with the maker's own segments before them. */
export function writeEventSegments(state: MachineState, reader: string, isReset: boolean): string[] {
  const { bank, maker } = state;
  const when = (seconds: number): readonly string[] => writeClock(seconds, maker.clockStyle).slice(0, 2);
  const { clockChange, temperatureC, priceChangedAt } = state;
  return [
    ...maker.extraSegments,
    ...writeEvents(state),
    writeReads(state, reader, isReset),
    writeLine('EA4', ...when(state.initialisedAt)),
    ...(priceChangedAt === null ? [] : [writeLine('EA5', ...when(priceChangedAt))]),
    ...(clockChange === null ? [] : [writeLine('EA6', ...when(clockChange.before), ...when(clockChange.after))]),
    writeLine('EA7', bank.interval('outages'), bank.lifetime('outages')),
    ...(temperatureC === null ? [] : [writeLine('MA5', 'TEMP', Math.round((temperatureC * 9) / 5 + 32), temperatureC)]),
  ];
}
