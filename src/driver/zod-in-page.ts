// What readers of sheets use of zod, made of its small form, which checks the same: zod whole is as large as half of this
// program's own code, and the page has to stay one small file. The page's build puts this in the place of `zod`. Without
// zod's own messages: every message a sheet can give rise to is the reader's own. A test holds both forms against each other.

import * as mini from 'zod/mini';

type Message = string | { readonly error: string };

/** A shape with the methods that sheets call on it. */
interface Chained {
  readonly nullable: () => Chained;
  readonly min: (least: number, message?: Message) => Chained;
  readonly max: (most: number, message?: Message) => Chained;
  readonly refine: (isRight: (value: never) => boolean, message?: Message) => Chained;
}

function chain<Shape extends mini.ZodMiniType>(shape: Shape): Shape & Chained {
  return Object.assign(shape, {
    nullable: () => chain(mini.nullable(shape)),
    min: (least: number, message?: Message) => chain(shape.check(mini.minimum(least, message) as never)),
    max: (most: number, message?: Message) => chain(shape.check(mini.maximum(most, message) as never)),
    refine: (isRight: (value: never) => boolean, message?: Message) =>
      chain(shape.check(mini.refine(isRight as never, message) as never)),
  });
}

export const string = (message?: Message) => chain(mini.string(message));
export const boolean = (message?: Message) => chain(mini.boolean(message));
export const int = (message?: Message) => chain(mini.int(message));
export const object = <Fields extends Record<string, mini.ZodMiniType>>(fields: Fields) => chain(mini.object(fields));
export const union = (options: readonly [mini.ZodMiniType, ...mini.ZodMiniType[]]) => chain(mini.union(options));
export const iso = {
  date: (message?: Message) => chain(mini.iso.date(message)),
  time: () => chain(mini.iso.time()),
  datetime: (options: { readonly local?: boolean; readonly error?: string }) => chain(mini.iso.datetime(options)),
};

const enumOf = (words: readonly string[], message?: Message) => chain(mini.enum([...words], message));

export { enumOf as enum };
