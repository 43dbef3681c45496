/** Things by a key of theirs, in the order in which keys come first. */
export function groupBy<T, Key>(all: readonly T[], keyOf: (one: T) => Key): Map<Key, T[]> {
  const groups = new Map<Key, T[]>();
  for (const one of all) getOrAdd(groups, keyOf(one), () => []).push(one);
  return groups;
}

/** What a map has under a key; where it has nothing, what is made is put there. */
export function getOrAdd<Key, Value>(map: Map<Key, Value>, key: Key, make: () => Value): Value {
  let value = map.get(key);
  if (value === undefined) {
    value = make();
    map.set(key, value);
  }
  return value;
}
