import { listSome, writeWhen } from '../../checks/wording.js';
import { CABINET_CAUTIONS, compareSeverity, printable } from '../../findings/index.js';
import type { LocalDateTime } from '../../model/index.js';
import { type CauseRule, distinct, tellWorst } from '../cause-rule.js';
import { isToReadAgain } from '../causes.js';
import { endOfDay, lastReadAt, type MachineDay } from '../machine-day.js';
import { stakeNotKnown, stakeOf } from '../stake.js';
import { usualBetween } from '../usual-day.js';

const NO_HISTORY = 'Not known: less than a day of its sales is known.';

/** Captures that cannot be used. */
export const readAgainRule: CauseRule = {
  cause: 'read-again',
  todo: 'Have the machine read again, and keep the faulty file as it is.',
  cautions: CABINET_CAUTIONS,
  tell(findings, day) {
    const files = distinct(findings, ({ file }) => file).map((file) => printable(file, 120));
    const worst = findings.toSorted(compareSeverity)[0]!.message;
    const what =
      files.length === 1
        ? `Capture ${files[0]} cannot be used. ${worst}`
        : `${files.length} captures cannot be used: ${listSome(files, 3)}. ${worst}`;
    return isCovered(day) ? `${what} A later capture of the day can be.` : what;
  },
  weigh(_, day) {
    if (isCovered(day)) return stakeOf(0, 'exact', 'Nothing: a later capture of the day covers the time.');
    const until = lastFaultyAt(day) ?? endOfDay(day.day);
    const how = 'What it usually sells, from its last usable capture to this one: no figure vouches for that.';
    const amount = usualBetween(day, lastReadAt(day), until);
    return amount === null ? stakeNotKnown(NO_HISTORY) : stakeOf(amount, 'about', how);
  },
};

function lastFaultyAt({ reads }: MachineDay): LocalDateTime | null {
  return reads.filter(({ findings }) => isToReadAgain(findings)).at(-1)?.at ?? null;
}

/** Whether a usable capture of the day came after the last faulty one. */
function isCovered(day: MachineDay): boolean {
  const faultyAt = lastFaultyAt(day);
  if (faultyAt === null) return false;
  return day.reads.some(
    ({ at, findings }) => at !== null && at > faultyAt && findings.every(({ severity }) => severity !== 'fault'),
  );
}

/** Captures that can be used, but not without a doubt. */
export const captureDoubtfulRule: CauseRule = {
  cause: 'capture-doubtful',
  todo: 'Compare the figures with the capture before; read the machine again where they do not fit.',
  cautions: CABINET_CAUTIONS,
  tell: tellWorst,
  weigh: () => stakeNotKnown('Not known: the figures may be right.'),
};

/** Files in which there is no capture. */
export const setAsideRule: CauseRule = {
  cause: 'set-aside',
  todo: 'Look what the files are; if one is a capture, have it sent again.',
  cautions: [],
  tell(findings) {
    const files = distinct(findings, ({ file }) => file).map((file) => printable(file, 120));
    const why = tellWorst(findings);
    if (findings.every(({ code }) => code === 'unreadable-file')) {
      return files.length === 1 ? why : `${files.length} files could not be read: ${listSome(files, 3)}. ${why}`;
    }
    return files.length === 1
      ? `File ${files[0]} was set aside. ${why}`
      : `${files.length} files were set aside: ${listSome(files, 3)}. ${why}`;
  },
  weigh: () => stakeNotKnown('Not known: nothing says which machine they would be of.'),
};

/** Machines of the roster that gave no capture. */
export const notReadRule: CauseRule = {
  cause: 'not-read',
  todo: 'Find out why no capture came: whether the machine has power, and its sender a signal.',
  cautions: CABINET_CAUTIONS,
  tell: tellWorst,
  weigh(_, day) {
    const how = 'What it usually sells, from its last capture to the end of the day: nothing shows that it did.';
    const amount = usualBetween(day, lastReadAt(day), endOfDay(day.day));
    return amount === null ? stakeNotKnown(NO_HISTORY) : stakeOf(amount, 'about', how);
  },
};

/** What is said of a machine that gave no capture. */
export function describeNotRead(day: MachineDay): string {
  const last = lastReadAt(day);
  return last === null
    ? 'No capture came, and none is known from before.'
    : `No capture came; the last one is of ${writeWhen(last)}.`;
}

/** Findings of unknown or other machines. */
export const unknownMachineRule: CauseRule = {
  cause: 'unknown-machine',
  todo: 'Add the machine to the roster, or correct how the sheets name it.',
  cautions: [],
  tell: tellWorst,
  weigh(_, { intervals }) {
    const values = intervals.map(({ totals }) => totals.value).filter((value) => value !== null);
    const sum = values.reduce((total, value) => total + value, 0);
    if (values.length === 0) return stakeNotKnown('Not known: its sales of the day are not.');
    const isWhole = values.length === intervals.length;
    return stakeOf(
      sum,
      isWhole ? 'exact' : 'at-least',
      'What it sold in the day, which is in no account of the roster.',
    );
  },
};

/** Captures of another machine than was said. */
export const otherMachineRule: CauseRule = {
  cause: 'other-machine',
  todo: 'Find out which machine was read; do not settle this capture for the other one.',
  cautions: [],
  tell: tellWorst,
  weigh: () => stakeNotKnown('Not known: it is not sure whose figures these are.'),
};
