/** What is measured: a name, and the work for one round. */
export interface Work {
  readonly name: string;
  readonly run: () => number;
}

/** The time one round of a work took. */
export interface Timing {
  readonly name: string;
  /** The shortest of all rounds, the one least disturbed by others, and the one in the middle; in microseconds. */
  readonly bestMicros: number;
  readonly medianMicros: number;
}

function timeOnce(work: Work): number {
  const start = process.hrtime.bigint();
  const result = work.run();
  const micros = Number(process.hrtime.bigint() - start) / 1000;
  if (Number.isNaN(result)) throw new Error(`${work.name} gave no number`);
  return micros;
}

/** Run all works by turns, so that a disturbance falls on all of them. The first rounds, in which code warms up, do not count. */
export function measureByTurns(works: readonly Work[], rounds: number, warmUp = Math.ceil(rounds / 4)): Timing[] {
  const times = works.map((): number[] => []);
  for (let round = -warmUp; round < rounds; round++) {
    works.forEach((work, i) => {
      const micros = timeOnce(work);
      if (round >= 0) times[i]!.push(micros);
    });
  }
  return works.map(({ name }, i) => {
    const sorted = times[i]!.sort((a, b) => a - b);
    return { name, bestMicros: sorted[0]!, medianMicros: sorted[sorted.length >> 1]! };
  });
}
