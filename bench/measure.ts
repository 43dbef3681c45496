/** What is measured: a name, and the work for one round. */
export interface Work {
  readonly name: string;
  /** How many captures a round takes; times are told of one. */
  readonly captures: number;
  readonly run: () => number;
}

/** The processor time that a work takes for one capture. */
export interface Timing {
  readonly name: string;
  /** The shortest of all rounds, the one least disturbed by others, and the one in the middle; in microseconds. */
  readonly bestMicros: number;
  readonly medianMicros: number;
}

/** Processor time, that of the collector of garbage included: what else runs on the machine does not count. */
function timeOnce(work: Work): number {
  const start = process.cpuUsage();
  const result = work.run();
  const { user, system } = process.cpuUsage(start);
  if (Number.isNaN(result)) throw new Error(`${work.name} gave no number`);
  return (user + system) / work.captures;
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
