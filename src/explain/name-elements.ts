/**
 * Names of elements, those of a segment that follow each other together.
 *
 * @param names - such as `CA1101`; any order
 * @example nameElements(['CA701', 'CA702', 'CA703', 'LA101']) // ['CA701-03', 'LA101']
 */
export function nameElements(names: Iterable<string>): string[] {
  const runs: { first: string; last: string }[] = [];
  for (const name of [...new Set(names)].sort()) {
    const run = runs.at(-1);
    if (run !== undefined && isNext(run.last, name)) run.last = name;
    else runs.push({ first: name, last: name });
  }
  return runs.map(({ first, last }) => (first === last ? first : `${first}-${last.slice(-2)}`));
}

const isNext = (one: string, other: string): boolean =>
  one.slice(0, -2) === other.slice(0, -2) && Number(other.slice(-2)) === Number(one.slice(-2)) + 1;
