import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../src/checks/check-capture.js';
import { CHECKS } from '../../src/checks/checks.js';
import { FINDING_CODES } from '../../src/findings/index.js';
import { buildCapture } from '../support/build-capture.js';
import { GOOD_SEGMENTS } from '../support/check-cases.js';

describe('checks', () => {
  it('says nothing at all of the good capture', () => {
    const check = checkCapture('good.dex', buildCapture(GOOD_SEGMENTS));
    expect(check.findings).toEqual([]);
    expect(check.verdict).toBe('sound');
  });

  it('lists each check once, with codes of the registry, a summary and a source', () => {
    expect(new Set(CHECKS).size).toBe(CHECKS.length);
    for (const { codes, summary, reference } of CHECKS) {
      expect(codes.every((code) => Object.hasOwn(FINDING_CODES, code))).toBe(true);
      expect(summary).toMatch(/^\w.*\.$/);
      expect(reference).not.toBe('');
    }
  });

  it('covers every code about a capture or a machine that is not the file reader or the install check', () => {
    const byReader = ['junk-before', 'junk-between', 'padding', 'empty-file', 'not-a-capture', 'overlong-set'];
    const byFile = [
      'set-count',
      'envelope-missing',
      'last-line-open',
      'unreadable-file',
      'file-too-large',
      'reads-unlisted',
    ];
    // Relabelled: told by two reads of one machine.
    const elsewhere = new Set([...byReader, ...byFile, 'test-vend-missing', 'relabelled']);
    const codes = Object.keys(FINDING_CODES);
    const captureCodes = codes.slice(0, codes.indexOf('duplicate-read')).filter((code) => !elsewhere.has(code));
    const covered = new Set<string>(CHECKS.flatMap((check) => check.codes));
    expect(captureCodes.filter((code) => !covered.has(code))).toEqual([]);
  });
});
