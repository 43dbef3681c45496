/**
 * Whether a trailer repeats its header's control number. Control numbers are numbers (`1`) that some readers pad (`0001`);
 * a missing one on both sides is no difference.
 */
export function isSameNumber(a: string | null, b: string | null): boolean {
  if (a === b) return true;
  const isNumeric = a !== null && b !== null && /^\d+$/.test(a) && /^\d+$/.test(b);
  return isNumeric && a.replace(/^0+/, '') === b.replace(/^0+/, '');
}
