import {
  KEY_KINDS,
  keysOfNumbers,
  type MachineKey,
  type MachineNumbers,
  parseMachineKey,
  sheetNameOfKey,
} from './machine-key.js';

/**
 * Finds the machine that a sheet means by a name. The roster's names are strongest; a machine that no roster has is called by
 * its key as it is printed, or by any of its numbers: asset, else serial, else board.
 */
export class MachineNames {
  /** Key by name, a map a kind of name, strongest first; null where several machines have it, so that it tells nothing. */
  readonly #kinds = KEY_KINDS.map(() => new Map<string, MachineKey | null>());
  readonly #keys = new Set<MachineKey>();

  /** Make a machine known, with the numbers of one of its reads. */
  add(key: MachineKey, numbers: MachineNumbers | null = null): void {
    this.#keys.add(key);
    const isOnRoster = parseMachineKey(key).kind === 'machine';
    const own = isOnRoster || numbers === null ? [key] : [key, ...keysOfNumbers(numbers)];
    for (const each of new Set(own)) {
      const { kind, name } = parseMachineKey(each);
      const known = this.#kinds[KEY_KINDS.indexOf(kind)]!;
      known.set(name, known.has(name) && known.get(name) !== key ? null : key);
    }
  }

  /** The key of the machine of that name; null when there is none, or several have it. */
  find(name: string): MachineKey | null {
    return this.#lookUp(name) ?? null;
  }

  /** Whether several machines have a name, and none has one that is stronger. */
  isShared(name: string): boolean {
    return this.#lookUp(name) === null;
  }

  #lookUp(name: string): MachineKey | null | undefined {
    const [onRoster, ...numbers] = this.#kinds;
    const named = onRoster!.get(name) ?? (this.#keys.has(name) ? name : undefined);
    if (named !== undefined) return named;
    for (const known of numbers) {
      const key = known.get(name);
      if (key !== undefined) return key;
    }
    return undefined;
  }

  /** Every machine, in the order they were made known, and what a sheet calls it. */
  *entries(): Generator<[key: MachineKey, name: string]> {
    for (const key of this.#keys) yield [key, sheetNameOfKey(key)];
  }
}
