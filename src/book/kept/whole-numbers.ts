/** Beyond this, twice a number and a bit are more than a number holds exactly. */
const LARGEST_PLAIN = 2 ** 50;
/** A varint of more bytes than this is read with whole numbers of any size. */
const LONGEST_PLAIN = 7;

/** Writes whole numbers, and that one is not known, in few bytes: seven bits a byte, the lowest first. */
export class NumberWriter {
  #bytes = new Uint8Array(512);
  #length = 0;

  /** A number, or null for one that is not known. */
  add(value: number | null): void {
    if (value === null) this.#addByte(0);
    else if (Math.abs(value) < LARGEST_PLAIN) this.#addPlain(Math.abs(value) * 2 + (value < 0 ? 2 : 1));
    else this.#addLarge(BigInt(Math.abs(value)) * 2n + (value < 0 ? 2n : 1n));
  }

  #addPlain(code: number): void {
    let rest = code;
    for (; rest >= 0x80; rest = Math.floor(rest / 0x80)) this.#addByte((rest % 0x80) | 0x80);
    this.#addByte(rest);
  }

  #addLarge(code: bigint): void {
    let rest = code;
    for (; rest >= 0x80n; rest /= 0x80n) this.#addByte(Number(rest % 0x80n) | 0x80);
    this.#addByte(Number(rest));
  }

  #addByte(byte: number): void {
    if (this.#length === this.#bytes.length) {
      const larger = new Uint8Array(this.#length * 2);
      larger.set(this.#bytes);
      this.#bytes = larger;
    }
    this.#bytes[this.#length++] = byte;
  }

  /** All that was written. */
  bytes(): Uint8Array {
    return this.#bytes.slice(0, this.#length);
  }
}

/** Reads what a {@link NumberWriter} wrote. */
export class NumberReader {
  readonly #bytes: Uint8Array;
  #at = 0;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  /** @throws RangeError when there is no more */
  next(): number | null {
    const start = this.#at;
    while ((this.#byteAt(this.#at) & 0x80) !== 0) this.#at++;
    const end = ++this.#at;
    if (end - start > LONGEST_PLAIN) return this.#large(start, end);
    let code = 0;
    for (let i = end - 1; i >= start; i--) code = code * 0x80 + (this.#bytes[i]! & 0x7f);
    if (code === 0) return null;
    return code % 2 === 1 ? (code - 1) / 2 : -(code - 2) / 2;
  }

  #large(start: number, end: number): number {
    let code = 0n;
    for (let i = end - 1; i >= start; i--) code = code * 0x80n + BigInt(this.#bytes[i]! & 0x7f);
    return code % 2n === 1n ? Number((code - 1n) / 2n) : -Number((code - 2n) / 2n);
  }

  #byteAt(at: number): number {
    const byte = this.#bytes[at];
    if (byte === undefined) throw new RangeError('there are fewer numbers than should be');
    return byte;
  }
}
