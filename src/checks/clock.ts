import { ELEMENT } from '../dictionary/index.js';
import { adviseAtCabinet, type Finding, makeFinding } from '../findings/index.js';
import { type LocalDateTime, minutesBetween, timeOfRead } from '../model/index.js';
import type { Read } from '../read/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';
import { writeDuration, writeWhen } from './wording.js';

const SET_CLOCK = adviseAtCabinet("Set the machine's clock.");
const HOUR = 60;
/** A clock that shows the first day of a year and is off by more than this was never set. */
const FACTORY_DAYS = 300;

const REFERENCES = { received: 'the time it was received', appended: 'the time the reader appended' } as const;

/** The best time there is to hold a machine's clock against, and where it is from. Null: then nothing is said. */
export function findReference(read: Read, context: CheckContext): { when: LocalDateTime; from: string } | null {
  const best = timeOfRead({ receivedAt: context.receivedAt, read });
  return best === null || best.kind === 'clock' ? null : { when: best.time, from: REFERENCES[best.kind] };
}

/** Holds the machine's clock against the time the capture was received, else what the reader appended to ST. */
export const clockCheck: Check = {
  codes: ['clock-wrong'],
  summary: "Whether the machine's clock is right, where there is a better time to hold it against.",
  reference: 'common practice; tolerance: domain rule',
  run(read, context) {
    const reference = findReference(read, context);
    const clock = reference === null || context.isLaterCopy ? null : read.clock;
    if (reference === null || clock === null) return NOTHING;
    const ahead = minutesBetween(reference.when, clock);
    if (Math.abs(ahead) <= context.clockToleranceMinutes) return NOTHING;
    return [describe(read, clock, ahead, reference.from, context)];
  },
};

function describe(read: Read, clock: LocalDateTime, ahead: number, from: string, context: CheckContext): Finding {
  const drift = `${writeDuration(Math.abs(ahead))} ${ahead > 0 ? 'ahead of' : 'behind'} ${from}`;
  return makeFinding(
    'clock-wrong',
    `The machine's clock shows ${writeWhen(clock)}, ${drift}${explain(clock, ahead, context.clockToleranceMinutes)}.`,
    { ...read.place(ELEMENT.ID501), received: clock, ...SET_CLOCK },
  );
}

function explain(clock: LocalDateTime, ahead: number, tolerance: number): string {
  if (Math.abs(Math.abs(ahead) - HOUR) <= Math.min(tolerance, HOUR / 2)) {
    return ': about one hour, so a change to or from daylight saving was probably missed';
  }
  const isNewYear = clock.slice(5, 10) === '01-01';
  if (isNewYear && ahead < -FACTORY_DAYS * 24 * HOUR)
    return ': it probably stands at its factory date and was never set';
  return '';
}

/** Says that the clock was changed since the read before, by more than the tolerance (EA6). */
export const clockJumpCheck: Check = {
  codes: ['clock-jump'],
  summary: 'Whether the machine says that its clock was changed since the read before.',
  reference: 'memory (EA6, EA3)',
  run(read, context) {
    if (read.line('EA6') < 0) return NOTHING;
    const before = read.when('EA601', 'EA602');
    const after = read.when('EA603', 'EA604');
    const since = context.lastGood?.clock ?? read.when('EA305', 'EA306');
    if (before === null || after === null || since === null) return NOTHING;
    const jump = minutesBetween(before, after);
    // A change made before that read is told by that read.
    const isOld = before < since && after < since;
    if (isOld || Math.abs(jump) <= context.clockToleranceMinutes) return NOTHING;
    const way = jump > 0 ? 'forward' : 'back';
    return [
      makeFinding(
        'clock-jump',
        `The clock was put ${way} by ${writeDuration(Math.abs(jump))} since the last read (from ${writeWhen(before)} to ${writeWhen(after)}).`,
        { ...read.place(ELEMENT.EA603), advice: 'Mind it where times matter: times before and after do not compare.' },
      ),
    ];
  },
};
