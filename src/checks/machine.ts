import { ELEMENT } from '../dictionary/index.js';
import { type Finding, makeFinding, printable } from '../findings/index.js';
import { type MachineRow, sayNumbers, tellingNumber } from '../model/index.js';
import type { Read } from '../read/index.js';
import { type Check, NOTHING } from './check.js';

const show = (text: string): string => printable(text, 40);

/** Says whose capture this is not: another machine than was said, or none of the roster. */
export const machineCheck: Check = {
  codes: ['other-machine', 'unknown-machine', 'unknown-profile'],
  summary: 'Whether the capture is of the machine it was said to be of, and of one on the roster.',
  reference: 'domain rule: by asset, else serial; a captures list or an option names the machine, a file name does not',
  run(read, context) {
    const { hasRoster, saidName, missingProfile, machine } = context;
    if (!hasRoster) return NOTHING;
    const findings: Finding[] = [];
    if (saidName !== null && context.saidMachine === null) findings.push(describeUnlisted(read, saidName));
    const other = context.saidMachine === null ? null : findOther(read, context.saidMachine, machine);
    if (other !== null) findings.push(other);
    if (machine === null) findings.push(describeUnknown(read));
    if (missingProfile !== null) findings.push(describeProfile(read, missingProfile, machine));
    return findings;
  },
};

function describeUnlisted(read: Read, name: string): Finding {
  return makeFinding(
    'unknown-machine',
    `The capture was said to be of machine ${show(name)}, which is not on the roster.`,
    { read: read.number, expected: show(name), advice: 'Correct the name, or add the machine to the roster.' },
  );
}

/** What a read gives of itself against the machine it was said to be of. Where either is silent nothing is claimed. */
function findOther(read: Read, said: MachineRow, machine: MachineRow | null): Finding | null {
  const [asset, serial] = [tellingNumber(read.machine.asset), tellingNumber(read.machine.serial)];
  const [saidAsset, saidSerial] = [tellingNumber(said.asset), tellingNumber(said.serial)];
  const name = show(said.machine);
  const advice = 'Find out which machine was read; do not settle this capture for the other one.';
  if (machine !== null && machine.machine !== said.machine) {
    return makeFinding(
      'other-machine',
      `The capture was said to be of machine ${name}, but is of ${show(machine.machine)}.`,
      { ...read.place(ELEMENT.ID106), expected: name, received: show(machine.machine), advice },
    );
  }
  const isOtherAsset = asset !== null && saidAsset !== null && asset !== saidAsset;
  const isSameSerial = serial !== null && serial === saidSerial;
  if (isOtherAsset && !isSameSerial) {
    return makeFinding(
      'other-machine',
      `The capture was said to be of machine ${name} (asset ${show(saidAsset)}), but gives asset ${show(asset)}.`,
      { ...read.place(ELEMENT.ID106), expected: show(saidAsset), received: show(asset), advice },
    );
  }
  if (asset === null && saidSerial !== null && serial !== null && !isSameSerial) {
    return makeFinding(
      'other-machine',
      `The capture was said to be of machine ${name} (serial ${show(saidSerial)}), but gives serial ${show(serial)}: another machine, or a new board.`,
      {
        ...read.place(ELEMENT.ID101),
        severity: 'doubt',
        expected: show(saidSerial),
        received: show(serial),
        advice,
      },
    );
  }
  return null;
}

function describeUnknown(read: Read): Finding {
  const ids = sayNumbers({ ...read.machine, board: null }).map(show);
  const who =
    ids.length === 0 ? 'The capture gives neither asset nor serial number' : `The capture gives ${ids.join(' and ')}`;
  return makeFinding('unknown-machine', `${who}: no machine on the roster fits.`, {
    ...read.place(read.machine.asset === null ? ELEMENT.ID101 : ELEMENT.ID106),
    advice: 'Add the machine to the roster, or correct its asset or serial number there.',
  });
}

function describeProfile(read: Read, name: string, machine: MachineRow | null): Finding {
  return makeFinding(
    'unknown-profile',
    `The roster asks for profile ${show(name)}, which was not given: the standard's reading was used.`,
    {
      read: read.number,
      ...(machine === null ? {} : { machine: machine.machine }),
      received: show(name),
      advice: 'Give the profile, or correct its name on the roster.',
    },
  );
}
