import type { BookHead } from '../book/index.js';
import type { NotedOptions } from './book-option-shapes.js';
import { UsageError } from './exit-status.js';

/**
 * The head that was written down elsewhere; null when none was given.
 *
 * @throws UsageError when only half of it was: a size alone binds nothing, and a root alone does not say of how many entries
 */
export function notedHead({ size, root }: NotedOptions): BookHead | null {
  if (size === undefined && root === undefined) return null;
  if (size === undefined || root === undefined) throw new UsageError('--size and --root can only be given together');
  return { size, root };
}
