/**
 * The machine of a book's key as all tables name it, so that they can be joined: the roster's own name, else what the machine
 * calls itself.
 *
 * @example nameOfKey('machine V101') // 'V101'
 * @example nameOfKey('asset A1') // 'asset A1'
 */
export function nameOfKey(key: string): string {
  return key.startsWith('machine ') ? key.slice('machine '.length) : key;
}
