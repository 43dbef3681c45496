import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MachinePageNames, SafeNames, slugOf } from '../../../src/pages/frame/index.js';
import { HOSTILE_TEXTS, HUGE_TEXT } from '../support/hostile.js';

describe('slugOf', () => {
  it.each([
    ['V101', 'v101'],
    ['Café  No. 5', 'caf-no-5'],
    ['../../etc/passwd', 'etc-passwd'],
    ['a\\b:c*?', 'a-b-c'],
    ['-', 'unnamed'],
    ['', 'unnamed'],
    ['機械', 'unnamed'],
  ])('makes of %j %j', (text, slug) => {
    expect(slugOf(text)).toBe(slug);
  });

  it('is short, and a name on every file system, whatever the text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        expect(slugOf(text)).toMatch(/^(?=.{1,40}$)[a-z0-9]+(-[a-z0-9]+)*$/);
      }),
    );
    for (const text of [...HOSTILE_TEXTS, HUGE_TEXT]) expect(slugOf(text)).toMatch(/^[a-z0-9-]{1,40}$/);
  });
});

describe('SafeNames', () => {
  it('numbers those that clash, also with a name that looks numbered', () => {
    const names = new SafeNames('machine-');
    expect(['V-1', 'v 1', 'V/1', 'v-1-2', 'V-1'].map((text) => names.of(text))).toEqual([
      'machine-v-1',
      'machine-v-1-2',
      'machine-v-1-3',
      'machine-v-1-2-2',
      'machine-v-1',
    ]);
  });

  it('gives different texts different names', () => {
    const unit = fc.constantFrom('a', 'A', '-', '1', '2', ' ');
    fc.assert(
      fc.property(fc.uniqueArray(fc.string({ unit, maxLength: 6 }), { maxLength: 60 }), (texts) => {
        const names = new SafeNames('');
        const given = texts.map((text) => names.of(text));
        expect(new Set(given).size).toBe(texts.length);
        expect(texts.map((text) => names.of(text))).toEqual(given);
      }),
      { numRuns: 200 },
    );
  });

  it('can give the same text another name', () => {
    const names = new SafeNames('settlement-');
    expect([names.fresh('R7'), names.fresh('R7')]).toEqual(['settlement-r7', 'settlement-r7-2']);
  });
});

describe('MachinePageNames', () => {
  it('links only to pages that are written', () => {
    const pages = new MachinePageNames();
    expect(pages.linkTo('V101')).toBeNull();
    expect(pages.of('V101')).toBe('machine-v101.html');
    expect(pages.of('V101', 2)).toBe('machine-v101.2.html');
    expect(pages.linkTo('V101')).toBe('machine-v101.html');
    expect(pages.of('v101')).toBe('machine-v101-2.html');
  });
});
