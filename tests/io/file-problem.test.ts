import { describe, expect, it } from 'vitest';
import { isSystemError, sayUnreadable } from '../../src/io/index.js';

const failing = (code: string, message = 'as the system says it'): Error => Object.assign(new Error(message), { code });

describe('sayUnreadable', () => {
  it('says the reason in words', () => {
    const say = (code: string) => sayUnreadable('in/a.dex', failing(code)).message;
    expect(say('EACCES')).toBe('in/a.dex could not be read: there is no permission to read it.');
    expect(say('EISDIR')).toBe('in/a.dex could not be read: it is a folder, not a file.');
    expect(say('EIO')).toBe('in/a.dex could not be read: the disk or network gave an error.');
    expect(say('EWHATEVER')).toBe('in/a.dex could not be read: as the system says it.');
  });

  it('is a fault with its file and advice, and safe to show', () => {
    const finding = sayUnreadable('a\u001b.dex', failing('EODD', '\u001b[2J'));
    expect(finding).toMatchObject({ code: 'unreadable-file', severity: 'fault', file: 'a\u001b.dex' });
    expect(finding.message).toBe('a\\x1B.dex could not be read: \\x1B[2J.');
    expect(finding.advice).toMatch(/Check the name/);
  });

  it("gives a defect back instead of calling it the file's", () => {
    const defect = new TypeError('x is not a function');
    expect(() => sayUnreadable('a.dex', defect)).toThrow(defect);
  });
});

describe('isSystemError', () => {
  it('tells errors of the system from defects', () => {
    expect(isSystemError(failing('ENOENT'))).toBe(true);
    expect(isSystemError(new TypeError('x'))).toBe(false);
    expect(isSystemError('x')).toBe(false);
  });
});
