import { describe, expect, it } from 'vitest';
import type { TakenRead } from '../../src/interval/index.js';
import { compareText, orderEra } from '../../src/interval/order-era.js';
import { buildTransmission } from '../support/build-capture.js';
import { readOf } from '../support/interval-cases.js';
import { type TakenOptions, takeAll } from '../support/taken.js';

const read = (file: string, segments: readonly string[], options: TakenOptions = {}): TakenRead =>
  readOf('to', segments, { file, ...options });
const order = (...reads: readonly TakenRead[]): string =>
  orderEra([...reads].reverse())
    .map(({ file }) => file)
    .join('');

describe('orderEra', () => {
  it('goes by the number of reads, whatever the clock says', () => {
    const a = read('a', ['VA1*100*1', 'EA3*********4', 'ID5*261124*1000']);
    const b = read('b', ['VA1*200*2', 'EA3*********5', 'ID5*261123*1000']);
    expect(order(a, b)).toBe('ab');
  });

  it('goes by EA301 where there is no EA309, unless it is an identifier', () => {
    const a = read('a', ['VA1*100*1', 'EA3*9', 'ID5*261123*1000']);
    const b = read('b', ['VA1*100*1', 'EA3*3', 'ID5*261124*1000']);
    expect(order(a, b)).toBe('ba');
    const profile = { name: 'p', ea301: 'identifier' } as const;
    expect(order({ ...a, profile }, { ...b, profile })).toBe('ab');
  });

  it('then by the clock, then by the time received', () => {
    const a = read('a', ['VA1*100*1', 'EA3*4', 'ID5*261123*1000'], { receivedAt: '2026-11-25T10:00:00' });
    const b = read('b', ['VA1*100*1', 'EA3*4', 'ID5*261124*1000'], { receivedAt: '2026-11-24T10:00:00' });
    expect(order(a, b)).toBe('ab');
    const [c, d] = [a, b].map((taken, i) => read('cd'[i]!, ['VA1*100*1', 'ID5'], { receivedAt: taken.receivedAt }));
    expect(order(c!, d!)).toBe('dc');
  });

  it('takes no order in which a counter goes down, where there is one without', () => {
    // The number of reads was set back, the clock was not.
    const a = read('a', ['VA1*100*1', 'EA3*********9', 'ID5*261123*1000']);
    const b = read('b', ['VA1*200*2', 'EA3*********1', 'ID5*261124*1000']);
    expect(order(a, b)).toBe('ab');
    // Clock and number of reads are both wrong, the time received is not.
    const c = read('c', ['VA1*300*3', 'EA3*********0', 'ID5*261101*1000'], { receivedAt: '2026-11-25T10:00:00' });
    const [first, second] = [a, b].map((taken, i) => ({ ...taken, receivedAt: `2026-11-2${3 + i}T10:00:00` }));
    expect(order(first!, second!, c)).toBe('abc');
  });

  it('goes by the counters themselves where nothing else fits, also across a roll-over', () => {
    const a = read('a', ['VA1*500*9999', 'PA1*1', 'PA2*9999', 'ID5*261125*1000']);
    const b = read('b', ['VA1*600*2', 'PA1*1', 'PA2*10001', 'ID5*261124*1000']);
    expect(order(a, b)).toBe('ab');
  });

  it('takes no order in which a counter goes away, where there is one without', () => {
    const a = read('a', ['VA1*100*1', 'ID5*261124*1000']);
    const b = read('b', ['VA1*100*1', 'CA8**50', 'ID5*261123*1000']);
    expect(order(a, b)).toBe('ab');
  });

  it('keeps the first order where counters go down in each', () => {
    const a = read('a', ['VA1*100*9', 'EA3*********1', 'ID5*261124*1000']);
    const b = read('b', ['VA1*900*2', 'EA3*********2', 'ID5*261123*1000']);
    expect(order(a, b)).toBe('ab');
  });

  it('goes by nothing that one of the reads does not have', () => {
    const a = read('a', ['VA1*100*1', 'EA3*********4', 'ID5*261124*1000']);
    const b = read('b', ['VA1*100*1', 'ID5*261123*1000']);
    expect(order(a, b)).toBe('ba');
    const c = read('c', ['VA1*100*1', 'ID5']);
    const d = read('d', ['VA1*100*1', 'ID5*261123*1000']);
    expect(order(c, d)).toBe('cd');
  });

  it('leaves equal reads in an order that does not depend on the input', () => {
    const [a, b] = ['a', 'b'].map((file) => read(file, ['VA1*100*1']));
    expect([order(a!, b!), order(b!, a!)]).toEqual(['ab', 'ab']);
    const segments = ['ID1*S1', 'VA1*100*1'];
    const twins = takeAll(buildTransmission([{ segments }, { segments }]));
    expect(orderEra(twins.reverse()).map(({ read: { number } }) => number)).toEqual([0, 1]);
    expect(orderEra([a!])).toEqual([a]);
  });

  it('goes by a time that is asked for and nothing else', () => {
    const a = read('a', ['VA1*100*1', 'ID5*261124*1000']);
    const b = read('b', ['VA1*200*2', 'ID5*261123*1000']);
    expect(orderEra([a, b], (taken) => taken.read.clock).map(({ file }) => file)).toEqual(['b', 'a']);
  });
});

describe('compareText', () => {
  it('orders as text', () => {
    expect([compareText('a', 'b'), compareText('b', 'a'), compareText('a', 'a')]).toEqual([-1, 1, 0]);
  });
});
