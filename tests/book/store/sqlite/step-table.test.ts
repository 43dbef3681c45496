import { describe, expect, it } from 'vitest';
import type {
  BookStep,
  BookStore,
  ReadKey,
  StepQuery,
  StepToKeep,
  WorkedOut,
} from '../../../../src/book/store/index.js';
import { gather, makeCapture, makeRead, openBook } from '../temporary-book.js';

const key = (entry: number): ReadKey => ({ entry, number: 0 });

const step = (from: number, to: number, findings: string | null = null): StepToKeep => ({
  from: key(from),
  to: key(to),
  layout: `{"columns":${to % 2}}`,
  figures: Buffer.from([to, from, 0, 255]),
  findings,
  seal: Buffer.from(`${from} to ${to}`),
});

const work = (machine: string, entries: number[], chain: StepToKeep[], asOf = 99): WorkedOut => ({
  machine,
  asOf,
  window: entries.map(key),
  changed: [],
  steps: chain,
});

/** Entries 0 to 4 are reads of machine A by the hour, 5 and 6 of machine B. */
async function makeFilledBook(): Promise<BookStore> {
  const book = await openBook();
  const machines = ['A', 'A', 'A', 'A', 'A', 'B', 'B'];
  await book.recordCaptures(
    machines.map((machine, i) =>
      makeCapture(`file ${i}`, {
        reads: [
          makeRead(`read ${i}`, {
            machine: `machine ${machine}`,
            clock: `2026-11-2${4 + (i % 2)}T1${i}:00:00`,
            rests: Buffer.from(`rests ${i}`),
          }),
        ],
      }),
    ),
  );
  await book.workOut([
    work('machine A', [0, 1, 2, 3, 4], [step(0, 2), step(2, 4), step(4, 1), step(1, 3, '["found"]')]),
    work('machine B', [5, 6], [step(6, 5)]),
  ]);
  return book;
}

const pairs = (steps: readonly BookStep[]): number[][] => steps.map(({ from, to }) => [from.entry, to.entry]);

describe('steps', () => {
  it('come back as they were worked out, with machine and times', async () => {
    const found = await gather((await makeFilledBook()).steps({ machine: 'machine A', atFrom: '2026-11-25T13:00:00' }));
    expect(found).toEqual([
      {
        ...step(1, 3, '["found"]'),
        machine: 'machine A',
        fromAt: '2026-11-25T11:00:00',
        toAt: '2026-11-25T13:00:00',
        fromRests: Buffer.from('rests 1'),
        toRests: Buffer.from('rests 3'),
      },
    ]);
  });

  it.each<[string, StepQuery, number[][]]>([
    [
      'all, by machine and time',
      {},
      [
        [0, 2],
        [2, 4],
        [4, 1],
        [1, 3],
        [6, 5],
      ],
    ],
    ['of a machine', { machine: 'machine B' }, [[6, 5]]],
    [
      'of a time',
      { atFrom: '2026-11-24T14:00:00', atTo: '2026-11-25T11:00:00' },
      [
        [2, 4],
        [4, 1],
      ],
    ],
    ['up to a time', { atTo: '2026-11-24T12:00:00' }, [[0, 2]]],
  ])('are found: %s', async (_, query, expected) => {
    expect(pairs(await gather((await makeFilledBook()).steps(query)))).toEqual(expected);
  });

  it('between two reads that were looked at are replaced, those at the edges stay', async () => {
    const book = await makeFilledBook();
    await book.workOut([work('machine A', [2, 4, 1], [step(2, 1, 'anew')])]);
    expect(pairs(await gather(book.steps({ machine: 'machine A' })))).toEqual([
      [0, 2],
      [2, 1],
      [1, 3],
    ]);
  });

  it('replace what is worked out of reads in the same transaction, all or none', async () => {
    const book = await makeFilledBook();
    const known = (await book.readsOf('machine A'))[0]!;
    const changed = [{ ...known, duplicateOf: key(4), era: 1, position: 2 }];
    await book.workOut([{ ...work('machine A', [0, 2], []), changed }]);
    expect((await book.readsOf('machine A'))[0]).toMatchObject({ duplicateOf: key(4), era: 1, position: 2 });
    expect(pairs(await gather(book.steps({ machine: 'machine A' })))).toEqual([
      [2, 4],
      [4, 1],
      [1, 3],
    ]);
    const impossible = work('machine B', [5, 6], [step(5, 6), step(77, 5)]);
    await expect(book.workOut([work('machine A', [1, 2, 3, 4], []), impossible])).rejects.toThrow();
    expect(pairs(await gather(book.steps()))).toEqual([
      [2, 4],
      [4, 1],
      [1, 3],
      [6, 5],
    ]);
  });

  it('go when a read of theirs is put to another machine, and both machines are to be worked out anew', async () => {
    const book = await makeFilledBook();
    await book.workOut((await book.staleMachines()).map(({ machine, revision }) => work(machine, [], [], revision)));
    expect(await book.staleMachines()).toEqual([]);
    const read = (await book.readsOf('machine A')).find(({ entry }) => entry === 4)!;
    await book.reassignReads([{ ...read, machine: 'machine C' }]);
    expect(pairs(await gather(book.steps()))).toEqual([
      [0, 2],
      [1, 3],
      [6, 5],
    ]);
    expect((await book.staleMachines()).map(({ machine }) => machine)).toEqual(['machine A', 'machine C']);
    const [moved] = await book.readsOf('machine C');
    await book.reassignReads([{ ...moved!, machine: null }]);
    expect((await gather(book.reads({ machine: null }))).map(({ entry }) => entry)).toEqual([4]);
  });

  it('can be dropped and worked out anew', async () => {
    const book = await makeFilledBook();
    await book.forgetSteps();
    expect(await gather(book.steps())).toEqual([]);
    expect((await book.staleMachines()).map(({ machine }) => machine)).toEqual(['machine A', 'machine B']);
  });

  it('may be replaced while they are looked through', async () => {
    const book = await makeFilledBook();
    const seen: number[][] = [];
    for await (const { from, to } of book.steps()) {
      if (seen.length === 0) await book.forgetSteps();
      seen.push([from.entry, to.entry]);
    }
    expect(seen).toHaveLength(5);
    const many = await openBook();
    await many.recordCaptures([
      makeCapture('many', {
        reads: Array.from({ length: 500 }, (_, number) => makeRead(`read ${number}`, { number })),
      }),
    ]);
    const numbered = (number: number): ReadKey => ({ entry: 0, number });
    const chain = Array.from({ length: 499 }, (_, i) => ({
      ...step(0, 0),
      from: numbered(i),
      to: numbered(i + 1),
    }));
    await many.workOut([{ ...work('machine M-1', [], chain), window: [] }]);
    let count = 0;
    for await (const _ of many.steps()) if (++count === 1) await many.forgetSteps();
    expect(count).toBe(200);
  });
});
