import { describe, expect, it } from 'vitest';
import { describeEntry } from '../../src/book/describe-entry.js';
import { type Entry, writeLeafText } from '../../src/book/index.js';
import { readLeafText } from '../../src/book/read-leaf-text.js';

const entry: Entry = {
  seq: 7,
  kind: 'capture-taken',
  recordedAt: '2026-11-24T22:15:00.000Z',
  subject: null,
  day: null,
  key: null,
  refersTo: null,
  body: '{}',
};
const file = (changes: object) =>
  JSON.stringify({
    file: 'a.dex',
    sha256: '0'.repeat(64),
    size: 3,
    isKept: true,
    reads: 2,
    readsSha256: '0'.repeat(64),
    facts: {},
    ...changes,
  });

describe('describeEntry', () => {
  it('names the file and what is in it', () => {
    expect(describeEntry({ ...entry, body: file({}) })).toBe('a.dex, 2 reads');
    expect(describeEntry({ ...entry, body: file({ reads: 1 }), refersTo: 3 })).toBe(
      'a.dex, 1 read; set aside before as entry 3',
    );
    expect(describeEntry({ ...entry, kind: 'set-aside', body: file({}) })).toBe('a.dex, no capture');
    expect(describeEntry({ ...entry, kind: 'set-aside', body: file({ facts: { message: 'A photo.' } }) })).toBe(
      'a.dex, no capture: A photo.',
    );
  });

  it('describes entries of a damaged book too', () => {
    expect(describeEntry({ ...entry, body: 'no JSON' })).toBe('a file that the entry does not name');
    expect(describeEntry({ ...entry, body: '{}', key: 'file 1' })).toBe('file 1');
  });

  it('names whom and which day other entries are about', () => {
    const closed = { ...entry, kind: 'settlement-closed' } as const;
    expect(describeEntry({ ...closed, subject: 'route R7', day: '2026-11-24' })).toBe('route R7, 2026-11-24');
    expect(describeEntry({ ...closed, key: 'k' })).toBe('k');
    expect(describeEntry({ ...closed, refersTo: 2 })).toBe('nothing that it names; refers to entry 2');
  });
});

describe('readLeafText', () => {
  it('gives back what writeLeafText was given', () => {
    const whole: Entry = { ...entry, subject: 's', day: '2026-11-24', key: 'k', refersTo: 2, body: '{"a":[1,null]}' };
    expect(readLeafText(writeLeafText(whole))).toEqual(whole);
    expect(readLeafText(writeLeafText(entry))).toEqual(entry);
  });

  it('gives nothing for a text that is no entry', () => {
    expect(readLeafText('{')).toBeNull();
    expect(readLeafText('{"seq":1}')).toBeNull();
  });
});
