/**
 * The name by which a machine's reads belong together: `machine NAME` on the roster; on none, the strongest number that the
 * machine gives of itself, `asset NUMBER`, `serial NUMBER` or `board NUMBER`. Books keep it in this form, and nothing but
 * this file makes or takes apart one.
 */
export type MachineKey = string;

/** What the name in a key is, strongest first: the roster's own, or a number that the machine gives. */
export const KEY_KINDS = ['machine', 'asset', 'serial', 'board'] as const;

/** See {@link KEY_KINDS}. */
export type KeyKind = (typeof KEY_KINDS)[number];

/** What a machine says of itself. */
export interface MachineNumbers {
  readonly asset: string | null;
  readonly serial: string | null;
  /** Serial number of the control board. */
  readonly board: string | null;
}

/** A read, as far as it has to be known to tell whose it is. */
export interface OwnedRead {
  /** The roster's machine; null when there is no roster or none fits. */
  readonly machine: { readonly machine: string } | null;
  readonly read: { readonly machine: MachineNumbers };
}

const NUMBER_KINDS = ['asset', 'serial', 'board'] as const;

const makeKey = (kind: KeyKind, name: string): MachineKey => `${kind} ${name}`;

/** The key of a read's machine; null when the read says nothing to tell its machine from others. */
export function machineKey({ machine, read }: OwnedRead): MachineKey | null {
  return machine === null ? keyOfNumbers(read.machine) : keyOfName(machine.machine);
}

/** The key of a machine that the office calls by this name. */
export function keyOfName(machine: string): MachineKey {
  return makeKey('machine', machine);
}

/** The key of a machine that is on no roster; null when nothing that it gives tells it from others. */
export function keyOfNumbers(numbers: MachineNumbers): MachineKey | null {
  return keysOfNumbers(numbers)[0] ?? null;
}

/** The keys that a machine's own numbers make, strongest first: what tells nothing makes none. */
export function keysOfNumbers(numbers: Partial<MachineNumbers>): MachineKey[] {
  return NUMBER_KINDS.flatMap((kind) => {
    const number = tellingNumber(numbers[kind] ?? null);
    return number === null ? [] : [makeKey(kind, number)];
  });
}

/**
 * A number that names a machine or board; null when it is absent, or nothing but zeros and spaces: such a number was never
 * given to the machine (common practice), so it tells nothing.
 */
export function tellingNumber(text: string | null): string | null {
  return text === null || /^[0\s]*$/.test(text) ? null : text;
}

/** A key taken apart. @throws RangeError for a text that is no key */
export function parseMachineKey(key: MachineKey): { readonly kind: KeyKind; readonly name: string } {
  const at = key.indexOf(' ');
  const kind = KEY_KINDS.find((each) => each === key.slice(0, at));
  if (kind === undefined) throw new RangeError(`"${key}" is not the key of a machine.`);
  return { kind, name: key.slice(at + 1) };
}

/** The roster's name in a key; null in that of a machine that no roster has. */
export function rosterNameIn(key: MachineKey): string | null {
  const { kind, name } = parseMachineKey(key);
  return kind === 'machine' ? name : null;
}

/**
 * What a machine is called wherever people and tables read of it, so that they can be joined: the roster's own name, else what
 * the machine calls itself.
 *
 * @example nameOfMachineKey('machine V101') // 'V101'
 * @example nameOfMachineKey('asset A1') // 'asset A1'
 */
export function nameOfMachineKey(key: MachineKey): string {
  return rosterNameIn(key) ?? key;
}

/**
 * What the office's sheets call a machine: the roster's name, else the bare number.
 *
 * @example sheetNameOfKey('asset A1') // 'A1'
 */
export function sheetNameOfKey(key: MachineKey): string {
  return parseMachineKey(key).name;
}

/**
 * The keys that a sheet's name may mean, strongest first: the roster's name, a key as it is printed for a machine that no
 * roster has, or the bare number of one.
 */
export function keysOfSheetName(name: string): MachineKey[] {
  const isPrintedKey = NUMBER_KINDS.some((kind) => name.startsWith(makeKey(kind, '')));
  return [keyOfName(name), ...(isPrintedKey ? [name] : []), ...NUMBER_KINDS.map((kind) => makeKey(kind, name))];
}

/**
 * What a machine gives of itself, in words: asset and serial number as they come; the board's where neither tells anything.
 *
 * @example sayNumbers({ asset: 'A1', serial: null, board: 'B1' }) // ['asset A1']
 */
export function sayNumbers({ asset, serial, board }: MachineNumbers): string[] {
  const tells = [asset, serial].some((number) => tellingNumber(number) !== null);
  const said = { asset, serial, board: tells ? null : tellingNumber(board) };
  return NUMBER_KINDS.flatMap((kind) => (said[kind] === null ? [] : [makeKey(kind, said[kind])]));
}
