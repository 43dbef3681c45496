import { expect, it } from 'vitest';
import { type Read, readCaptures, startOfRead } from '../../src/read/index.js';
import { buildCapture, joinCaptures } from '../support/build-capture.js';

const segments = ['ID1*S1*M1', 'ID4*2*978*EUR', 'PA1*11*150', 'PA2*7*1050'];

it('tells where a read begins, from where it reads the same', () => {
  const one = buildCapture(segments);
  const file = joinCaptures(one, one, one);
  const { reads } = readCaptures(file);
  const start = startOfRead(reads[2]!)!;
  expect(start).toMatchObject({ offset: 2 * one.length, number: 2 });
  const [again] = readCaptures(file.subarray(start.offset), { startAt: start }).reads;
  const describe = (read: Read) => [read.number, read.place('SE01'), read.integrity, read.range.transmission];
  expect(describe(again!)).toEqual(describe(reads[2]!));
});

it('tells none for a read with no DXS right before it', () => {
  const [read] = readCaptures(buildCapture(segments, { envelope: false })).reads;
  expect(startOfRead(read!)).toBeNull();
});
