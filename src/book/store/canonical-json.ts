/** What JSON can say. */
export type JsonValue = null | boolean | number | string | readonly JsonValue[] | JsonObject;

/** A JSON object. A key without a value is not one. */
export interface JsonObject {
  readonly [key: string]: JsonValue;
}

/**
 * The one text that stands for a value: keys in order of their UTF-16 code units, no white space, numbers and texts as
 * ECMAScript writes them. Equal values give equal bytes, so that a hash of them means something.
 *
 * @throws TypeError for what JSON can not say (NaN, infinities, `undefined`)
 * @see RFC 8785. It refuses lone surrogates; here they are escaped, since a file name can have them and must not be lost.
 * @example canonicalJson({ b: 1, a: [null, 'x'] }) // '{"a":[null,"x"],"b":1}'
 */
export function canonicalJson(value: JsonValue): string {
  switch (typeof value) {
    case 'boolean':
    case 'string':
      return JSON.stringify(value);
    case 'number':
      if (!Number.isFinite(value)) throw new TypeError(`JSON has no number ${value}.`);
      return JSON.stringify(value);
    case 'object': {
      if (value === null) return 'null';
      if (isList(value)) return `[${value.map(canonicalJson).join(',')}]`;
      const keys = Object.keys(value).sort();
      return `{${keys.map((key) => `${JSON.stringify(key)}:${canonicalJson(value[key]!)}`).join(',')}}`;
    }
    default:
      throw new TypeError(`JSON can not say ${typeof value}.`);
  }
}

// Array.isArray does not narrow lists that are readonly.
const isList = (value: JsonObject | readonly JsonValue[]): value is readonly JsonValue[] => Array.isArray(value);
