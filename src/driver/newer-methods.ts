// What the core uses of the language's library that browsers of 2022 do not have yet: a driver's phone may be that old.
// Each does what ECMAScript 2023 says of it for arrays without holes.

/** Give arrays those methods that this browser lacks. */
export function addNewerMethods(prototype: unknown[] = Array.prototype): void {
  const methods = {
    toSorted<Item>(this: Item[], compare?: (a: Item, b: Item) => number): Item[] {
      return [...this].sort(compare);
    },
    toReversed<Item>(this: Item[]): Item[] {
      return [...this].reverse();
    },
    toSpliced<Item>(this: Item[], start: number, count: number, ...items: Item[]): Item[] {
      const copy = [...this];
      const rest = copy.splice(start).slice(Math.max(0, count));
      return [...copy, ...items, ...rest];
    },
    findLastIndex<Item>(this: Item[], isIt: (item: Item, index: number, all: Item[]) => unknown): number {
      let index = this.length - 1;
      while (index >= 0 && !isIt(this[index]!, index, this)) index--;
      return index;
    },
    findLast<Item>(this: Item[], isIt: (item: Item, index: number, all: Item[]) => unknown): Item | undefined {
      return this[methods.findLastIndex.call(this, isIt as never)];
    },
  };
  for (const [name, value] of Object.entries(methods)) {
    if (!(name in prototype)) Object.defineProperty(prototype, name, { value, writable: true, configurable: true });
  }
}
