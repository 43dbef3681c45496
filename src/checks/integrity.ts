import { ELEMENT } from '../dictionary/index.js';
import { type Finding, makeFinding, type Place, printable } from '../findings/index.js';
import type { Profile } from '../profile/index.js';
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
      return describeSwapped(read, integrity, place, context.profile);
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
      return describeRange(integrity, place, context.profile);
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

function describeSwapped(read: Read, integrity: Integrity, place: Place, profile: Profile | null): Finding {
  const level = read.integer(ELEMENT.ID107);
  let why = 'as machines of an older level write it';
  if (profile?.integrity?.byteOrder === 'low-first') why = 'as the profile says of this machine';
  else if (level !== null && level >= HIGH_FIRST_LEVEL) why = `which is unusual, since the machine says level ${level}`;
  return makeFinding(
    'integrity-byte-order',
    `The integrity value ${integrity.stated} fits with its two bytes exchanged, ${why}.`,
    place,
  );
}

/** One departure has a reason; two at once fit more by chance than one would like, unless a profile speaks for them. */
function describeRange(integrity: Integrity, place: Place, profile: Profile | null): Finding {
  const { variants } = integrity;
  const own = profile?.integrity;
  const isExpected = variants.every((variant) =>
    variant === 'byte-swapped' ? own?.byteOrder === 'low-first' : variant === own?.range,
  );
  const how = isExpected ? ', as the profile says of this machine' : '';
  return makeFinding(
    'integrity-range',
    `The integrity value ${integrity.stated} fits ${describeVariants(integrity)}${how}.`,
    variants.length > 1 && !isExpected
      ? { ...place, severity: 'doubt', advice: 'Read the machine once more: two reads that agree settle it.' }
      : place,
  );
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
