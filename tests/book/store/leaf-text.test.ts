import { describe, expect, it } from 'vitest';
import { canonicalJson, type Entry, writeLeafText, writeReadLine } from '../../../src/book/store/index.js';
import { makeRead, sha256Of } from './temporary-book.js';

const full: Entry = {
  seq: 12,
  kind: 'count-corrected',
  recordedAt: '2026-11-24T22:15:00.000Z',
  subject: 'route "7"',
  day: '2026-11-24',
  key: 'bag\n9',
  refersTo: 3,
  body: '{"a":1}',
};
const bare: Entry = { ...full, subject: null, day: null, key: null, refersTo: null };

describe('writeLeafText', () => {
  it('is the canonical JSON of all that the entry says', () => {
    const { body, ...rest } = full;
    expect(writeLeafText(full)).toBe(canonicalJson({ ...rest, body: { a: 1 } }));
  });

  it('leaves out what the entry does not say', () => {
    expect(writeLeafText(bare)).toBe(
      '{"body":{"a":1},"kind":"count-corrected","recordedAt":"2026-11-24T22:15:00.000Z","seq":12}',
    );
  });

  it('is another text when anything in the entry is another', () => {
    const changes: Partial<Entry>[] = [
      { seq: 13 },
      { kind: 'count-entered' },
      { recordedAt: '2026-11-24T22:15:00.001Z' },
      { subject: 'route 7' },
      { day: '2026-11-25' },
      { key: 'bag 9' },
      { refersTo: 4 },
      { body: '{"a":2}' },
    ];
    const texts = [full, bare, ...changes.map((change) => ({ ...full, ...change }))].map(writeLeafText);
    expect(new Set(texts).size).toBe(texts.length);
  });
});

describe('writeReadLine', () => {
  it('is one line of canonical JSON of what is recorded of a read, and of nothing else', () => {
    const line = writeReadLine(makeRead('x', { asset: null, machine: 'another', receivedAt: '2026-11-24T11:00:00' }));
    expect(line).toBe(
      `{"asset":null,"board":"B-1","clock":"2026-11-24T10:15:00","content":"${sha256Of('x')}","number":0,"serial":"S-1"}\n`,
    );
  });
});
