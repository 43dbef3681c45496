import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CaptureExplainer, type ExplainedSegment, explainCapture } from '../../src/explain/index.js';
import { Roster } from '../../src/sheets/index.js';
import { buildCapture, buildTransmission, bytesOf, textOf } from '../support/build-capture.js';

const circumstances = { roster: new Roster() };
const explain = (bytes: Uint8Array): ExplainedSegment[] => explainCapture('a.dex', bytes, circumstances);

/** The lines of a text that hold anything, which is what every explanation must cover. */
const linesOf = (text: string): string[] => text.split(/\r\n|\r|\n/).filter((line) => line.trim() !== '');
const writeBack = ({ id, elements }: ExplainedSegment): string => [id, ...elements.map(({ text }) => text)].join('*');

const CAPTURE = buildTransmission(
  [
    { segments: ['ID1*S1*M1', 'VA1*250*2', 'ID4*2*978*EUR', 'PA1*11*125', 'PA2*2*250', 'CA2*250*2'] },
    { segments: ['ID1*S2*M2', 'ID4*0*392*JPY', 'VA1*250*2', 'MA9*own'] },
  ],
  { header: 'read by a handheld' },
);

describe('explainCapture', () => {
  it('explains every line of the file in its order, those outside the sets included', () => {
    const explained = explain(CAPTURE);
    expect(explained.map(writeBack)).toEqual(linesOf(textOf(CAPTURE)));
    expect(explained.map(({ line }) => line)).toEqual(explained.map((_, i) => i + 1));
    expect(explained.map(({ read }) => read)).toEqual([
      ...[null, null, 0, 0, 0, 0, 0, 0, 0, 0, 0],
      ...[1, 1, 1, 1, 1, 1, 1, null],
    ]);
  });

  it('puts amounts in the money of their own set, wherever ID4 stands in it', () => {
    const values = explain(CAPTURE).filter(({ id }) => id === 'VA1');
    expect(values.map(({ elements }) => elements[0]!.words)).toEqual(['2.50 EUR', '250 JPY']);
  });

  it('says which column a product segment belongs to', () => {
    const columns = explain(CAPTURE).filter(({ read }) => read === 0);
    expect(columns.map(({ id, column }) => `${id} ${column}`)).toEqual([
      ...['ST null', 'ID1 null', 'VA1 null', 'ID4 null', 'PA1 11', 'PA2 11', 'CA2 null', 'G85 null', 'SE null'],
    ]);
  });

  it('says whether the integrity value fits, and how many segments there are', () => {
    const remarksOf = (bytes: Uint8Array) => explain(bytes).flatMap(({ remark }) => remark ?? []);
    expect(remarksOf(buildCapture(['ID1*S1']))).toEqual(['fits the bytes exactly', '4 segments counted']);
    expect(remarksOf(buildCapture(['ID1*S1'], { crc: 'wrong' }))[0]).toMatch(/does not fit/);
    expect(remarksOf(buildCapture(['ID1*S1'], { crc: 'swapped' }))[0]).toMatch(/low byte first/);
    expect(remarksOf(buildCapture(['ID1*S1'], { eol: '\n' }))[0]).toMatch(/CR LF endings are restored/);
    expect(remarksOf(buildCapture(['ID1*S1'], { crc: 'from-dxs' }))[0]).toMatch(/range of its own/);
    expect(remarksOf(buildCapture(['ID1*S1'], { crc: '12' }))[0]).toMatch(/no value/);
  });

  it('takes decimals and words from the profile of the machine', () => {
    const roster = new Roster({
      profiles: [{ name: 'p', models: ['M1'], decimals: 1, elements: { MA901: 'filter' } }],
    });
    const explained = explainCapture('a.dex', buildCapture(['ID1*S1*M1', 'CA2*250', 'MA9*7']), { roster });
    const element = (id: string) => explained.find((segment) => segment.id === id)!.elements[0]!;
    expect(element('CA2').words).toBe('25.0');
    expect(element('MA9').meaning).toBe('filter');
  });

  it('explains what is no capture as lines that nobody knows', () => {
    expect(explain(bytesOf('hello\nworld*1\n')).map(({ id, title, read }) => [id, title, read])).toEqual([
      ['hello', null, null],
      ['world', null, null],
    ]);
    expect(explain(bytesOf(''))).toEqual([]);
  });

  it('gives the same whatever the chunks', () => {
    const whole = explain(CAPTURE);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1 }), (sizes) => {
        const explained: ExplainedSegment[] = [];
        const explainer = new CaptureExplainer('a.dex', circumstances);
        const keep = (segment: ExplainedSegment) => explained.push(segment);
        for (let at = 0, i = 0; at < CAPTURE.length; i++) {
          const size = sizes[i % sizes.length]!;
          explainer.push(CAPTURE.slice(at, at + size), keep);
          at += size;
        }
        explainer.end(keep);
        expect(explained).toEqual(whole);
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  it('lets nothing wait for long where a set never ends', () => {
    const explainer = new CaptureExplainer('a.dex', circumstances);
    let given = 0;
    const count = () => {
      given++;
    };
    const lines = bytesOf(`ST*001*0001\r\n${'MA9*1\r\n'.repeat(20_000)}`);
    for (let i = 0; i < 6; i++) explainer.push(lines.slice(i === 0 ? 0 : 13), count);
    expect(given).toBeGreaterThan(100_000);
    explainer.end(count);
    expect(given).toBeGreaterThan(120_000);
  });

  it('is never thrown off by any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(Array.isArray(explain(bytes))).toBe(true);
      }),
      { seed: 8, numRuns: 200 },
    );
  });
});
