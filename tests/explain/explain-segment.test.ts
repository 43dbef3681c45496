import { describe, expect, it } from 'vitest';
import { explainSegment, type SegmentSetting } from '../../src/explain/index.js';
import { parseSegments } from '../../src/segments/index.js';
import { bytesOf } from '../support/build-capture.js';

const SETTING: SegmentSetting = {
  currency: 'EUR',
  decimals: 2,
  profile: null,
  read: 0,
  column: null,
  remark: null,
};
const explain = (line: string, setting: Partial<SegmentSetting> = {}) => {
  const [segment] = [...parseSegments(bytesOf(`${line}\r\n`))[0]!];
  return explainSegment(segment!, { ...SETTING, ...setting });
};

describe('explainSegment', () => {
  it('names the segment and each of its elements, with kind, span and place', () => {
    const { id, title, elements } = explain('CA2*1250*10');
    expect([id, title]).toEqual(['CA2', 'cash sales']);
    expect(elements[0]).toEqual({
      name: 'CA201',
      text: '1250',
      meaning: 'cash sales, value, since initialisation',
      isByProfile: false,
      kind: 'money',
      span: 'init',
      words: '12.50 EUR',
      isUnconfirmed: false,
      offset: 4,
    });
    expect(elements[1]).toMatchObject({ name: 'CA202', words: null, offset: 9 });
    expect(explain('CA7*5*1').elements.map(({ isUnconfirmed }) => isUnconfirmed)).toEqual([true, true]);
  });

  it('keeps what nobody knows as it is', () => {
    expect(explain('MA9*x*1')).toMatchObject({
      title: null,
      elements: [
        { name: 'MA901', text: 'x', meaning: null, kind: null, words: null },
        { name: 'MA902', text: '1', meaning: null },
      ],
    });
    const beyond = explain('CA8*1*2*3').elements[2]!;
    expect(beyond).toMatchObject({ name: 'CA803', text: '3', meaning: null });
  });

  it('leaves an empty element empty', () => {
    expect(explain('CA2**10').elements[0]).toMatchObject({ text: '', words: null, kind: 'money' });
  });

  it("takes the profile's words for elements it names, known and unknown ones", () => {
    const profile = { name: 'p', elements: { MA901: 'water filter', CA201: 'cash sales net' } };
    expect(explain('MA9*x', { profile }).elements[0]).toMatchObject({ meaning: 'water filter', isByProfile: true });
    expect(explain('CA2*1', { profile }).elements[0]).toMatchObject({ meaning: 'cash sales net', isByProfile: true });
    expect(explain('CA2*1*2', { profile }).elements[1]).toMatchObject({ isByProfile: false });
  });
});
