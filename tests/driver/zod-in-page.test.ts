import { describe, expect, it } from 'vitest';
import * as zod from 'zod';
import * as small from '../../src/driver/zod-in-page.js';

const VALUES = [
  null,
  undefined,
  '',
  'EUR',
  'service',
  '2026-11-24',
  '2026-02-30',
  '10:15:00',
  '2026-11-24T10:15:00',
  0,
  3,
  -1,
  1.5,
  99,
  Number.NaN,
  2 ** 60,
  true,
  {},
  [],
];

/** The shapes that sheets make, by either form. */
const shapesOf = (z: typeof zod) => ({
  text: z.string().nullable(),
  key: z.string(),
  currency: z
    .string()
    .refine((code: string) => code === 'EUR', 'is no currency')
    .nullable(),
  flag: z.boolean().nullable(),
  whole: z.int().min(0, 'is too small').max(50, 'is too large').nullable(),
  percent: z.int().max(100, 'is more than 100').nullable(),
  word: z.enum(['service', 'scheduled'], 'is none of them').nullable(),
  date: z.iso.date({ error: 'has a time of day' }).nullable(),
  time: z.iso.datetime({ local: true, error: 'has no time of day' }).nullable(),
  either: z.union([z.iso.date(), z.iso.datetime({ local: true })]).nullable(),
  when: z.object({ date: z.iso.date(), time: z.iso.time().nullable() }),
});

describe('the small form of zod in the page', () => {
  const whole = shapesOf(zod);
  const page = shapesOf(small as unknown as typeof zod);

  it.each(Object.keys(whole) as (keyof typeof whole)[])('takes and refuses the same as %s', (name) => {
    for (const value of [...VALUES, { date: '2026-11-24', time: null }, { date: '2026-11-24', time: '25:00' }]) {
      const [a, b] = [whole[name].safeParse(value), page[name].safeParse(value)];
      expect([name, value, b.success, b.data]).toEqual([name, value, a.success, a.data]);
      expect(b.error?.issues.map(({ path }) => path)).toEqual(a.error?.issues.map(({ path }) => path));
    }
  });

  it('words what it refuses as the sheet says it', () => {
    const says = (
      shape: { safeParse: (value: unknown) => { error?: { issues: readonly { message: string }[] } | undefined } },
      value: unknown,
    ) => shape.safeParse(value).error?.issues.map(({ message }) => message);
    const cases: readonly (readonly [keyof typeof whole, unknown])[] = [
      ['currency', 'XX'],
      ['whole', -1],
      ['whole', 51],
      ['percent', 101],
      ['word', 'fun'],
      ['date', '2026-11-24T10:15:00'],
      ['time', '2026-11-24'],
    ];
    for (const [name, value] of cases)
      expect([name, says(page[name], value)]).toEqual([name, says(whole[name], value)]);
  });
});
