import { expect, it } from 'vitest';
import { reasonNotWritten } from '../../src/io/index.js';

const systemError = (code: string) => Object.assign(new Error(`${code}: it failed, write '\u001b[2J'`), { code });

it('says in words why the system refused, and shows harmlessly what it has no words for', () => {
  expect(reasonNotWritten(systemError('ENOSPC'))).toBe('the disk is full');
  expect(reasonNotWritten(systemError('EROFS'))).toBe('the disk is read-only');
  expect(reasonNotWritten(systemError('EODD'))).toBe("EODD: it failed, write '\\x1B[2J'");
});
