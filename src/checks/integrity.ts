import { ELEMENT } from '../dictionary/index.js';
import { type Finding, type FindingDetail, makeFinding, type Place, printable } from '../findings/index.js';
import type { Integrity, IntegrityVariant, Read } from '../read/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';
import { describeReception } from './reception.js';
import { countOf, READ_AGAIN } from './wording.js';

/** The level from which the integrity value is written most significant byte first. */
const HIGH_FIRST_LEVEL = 6;

const VARIANT_WORDS: Readonly<Record<IntegrityVariant, string>> = {
  'byte-swapped': 'with its two bytes exchanged',
  'line-endings': 'once the line endings are put back to CR LF',
  'from-dxs': 'over the bytes from DXS on instead of from ST on',
  'without-last-ending': 'when the last line ending before G85 is left out',
  'st-appended': 'when what the reader appended to ST is taken out again',
};

/** Says which way the integrity value fits the bytes, since each calls for something else. */
export const integrityCheck: Check = {
  codes: ['integrity-damaged', 'integrity-absent', 'integrity-byte-order', 'integrity-line-endings', 'integrity-range'],
  summary: 'Whether the integrity value of G85 fits the bytes, and if only in a variant, in which.',
  reference: 'CRC-16/ARC (catalogue of parametrised CRC algorithms); byte order: manual L0190D, p. 42; range: memory',
  run(read, context) {
    const { integrity } = read;
    if (integrity.state === 'exact') return hasUncovered(read) ? [describeUncovered(read)] : NOTHING;
    const place = read.place(ELEMENT.G8501);
    const finding = describeState(read, integrity, place, context);
    return finding === null ? NOTHING : [finding];
  },
};

function describeState(read: Read, integrity: Integrity, place: Place, context: CheckContext): Finding | null {
  switch (integrity.state) {
    case 'absent':
      return describeAbsent(read, place);
    case 'damaged':
      return describeDamaged(integrity, place, context);
    case 'byte-swapped':
      return describeSwapped(read, integrity, place, context);
    case 'line-endings':
      return makeFinding(
        'integrity-line-endings',
        `The line endings were changed on the way; ${describeVariants(integrity)} the integrity value fits, so the content is whole.`,
        {
          ...place,
          advice: 'This capture can be used. Have files sent as they are (binary), so that nothing changes on the way.',
        },
      );
    default:
      return describeRange(read, integrity, place, context);
  }
}

const describeVariants = ({ variants }: Integrity): string =>
  variants.map((variant) => VARIANT_WORDS[variant]).join(' and ');

function describeAbsent(read: Read, place: Place): Finding | null {
  // A cut capture says itself that this is one of the things it leaves out.
  if (!read.isComplete) return null;
  const text = read.text(ELEMENT.G8501);
  const what =
    text === null
      ? 'There is no integrity value (G85)'
      : `G85 gives only "${printable(text, 10)}", which is too short for an integrity value`;
  return makeFinding('integrity-absent', `${what}, so damage on the way can not be ruled out.`, {
    ...place,
    expected: 'four hexadecimal digits',
    advice: 'Compare the figures with the machine before you rely on them, or read it again with another reader.',
  });
}

function describeDamaged(integrity: Integrity, place: Place, context: CheckContext): Finding {
  const stated = printable(integrity.stated ?? '', 20);
  const what =
    integrity.computed === null
      ? `The integrity value ${stated} can not be held against anything, since the beginning of the read (ST) is missing.`
      : `The integrity value is ${stated}, but the bytes give ${integrity.computed}: something was changed or lost on the way.`;
  return makeFinding('integrity-damaged', what + describeReception(context), {
    ...place,
    ...(integrity.computed === null ? {} : { expected: integrity.computed }),
    received: stated,
    advice: READ_AGAIN,
  });
}

function describeSwapped(read: Read, integrity: Integrity, place: Place, context: CheckContext): Finding {
  const level = read.integer(ELEMENT.ID107);
  const isOlder = level !== null && level < HIGH_FIRST_LEVEL;
  const reason = sayReason(read, integrity, context) ?? (isOlder ? 'as machines of an older level write it' : null);
  const doubt =
    level === null ? 'and nothing shows that this machine writes it so' : `though the machine says level ${level}`;
  const message = `The integrity value ${integrity.stated} fits with its two bytes exchanged, ${reason ?? doubt}.`;
  return makeFinding('integrity-byte-order', message, weighVariant(place, reason !== null));
}

function describeRange(read: Read, integrity: Integrity, place: Place, context: CheckContext): Finding {
  const reason = sayReason(read, integrity, context);
  const how = reason ?? 'and nothing shows that this machine makes it so';
  const message = `The integrity value ${integrity.stated} fits ${describeVariants(integrity)}, ${how}.`;
  return makeFinding('integrity-range', message, weighVariant(place, reason !== null));
}

/** Each variant lets one damage in 65,536 pass for its own: without a reason for it, it is a doubt (domain rule). */
function weighVariant(place: Place, hasReason: boolean): FindingDetail {
  if (hasReason) return { ...place, severity: 'note' };
  return { ...place, severity: 'doubt', advice: 'Read the machine once more: two reads that agree settle it.' };
}

/** Why a machine's values fit in a variant: its profile says so, or another read of it shows the same. Null: nothing does. */
function sayReason(read: Read, { variants }: Integrity, { profile, lastGood }: CheckContext): string | null {
  const own = profile?.integrity;
  const isExpected = variants.every((variant) =>
    variant === 'byte-swapped' ? own?.byteOrder === 'low-first' : variant === own?.range,
  );
  if (isExpected) return 'as the profile says of this machine';
  // A copy of the same read bears nothing out.
  const other = lastGood !== null && lastGood.clock !== read.clock ? (lastGood.integrity?.variants ?? []) : [];
  return String(other) === String(variants) ? 'as in another read of this machine' : null;
}

/** Lines between G85 and SE: nothing vouches for those. */
function hasUncovered(read: Read): boolean {
  const se = read.line('SE');
  for (let line = read.g85Line + 1; line < se; line++) if (read.block.kind(line) >= -1) return true;
  return false;
}

function describeUncovered(read: Read): Finding {
  let count = 0;
  for (let line = read.g85Line + 1; line < read.line('SE'); line++) if (read.block.kind(line) >= -1) count++;
  return makeFinding(
    'integrity-range',
    `${countOf(count, 'segment stands', 'segments stand')} after G85, where the integrity value does not cover them.`,
    { ...read.place(ELEMENT.G8501), severity: 'doubt', advice: READ_AGAIN },
  );
}
