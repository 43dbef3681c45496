// Names of files are bytes, and need not be UTF-8: a file from an old system or a foreign disk is still a capture. A byte that
// is no UTF-8 stands in a name as a lone surrogate, U+DC80 for 80h up to U+DCFF for FFh (as Python does it, PEP 383): every name
// is a text of its own, and the way back gives the bytes as they are on the disk.

const HIDDEN_BYTE = 0xdc00;
const LONE = /\p{Surrogate}/u;
/** What decoders put in the place of bytes that are no UTF-8. */
const REPLACED = '\ufffd';

/** Whether a name has bytes that are no UTF-8. */
export const hasForeignBytes = (name: string): boolean => LONE.test(name);

/** Whether a name may have lost bytes where it was decoded by somebody else, as the arguments of a program are. */
export const mayHaveLostBytes = (name: string): boolean => name.includes(REPLACED);

/** The text for a name as it is on the disk. */
export function decodeName(bytes: Buffer): string {
  const plain = bytes.toString('utf8');
  if (!plain.includes(REPLACED)) return plain;
  let text = '';
  for (let at = 0; at < bytes.length; ) {
    const length = lengthOfCharacter(bytes, at);
    text += length === 0 ? String.fromCharCode(HIDDEN_BYTE + bytes[at]!) : bytes.toString('utf8', at, at + length);
    at += Math.max(1, length);
  }
  return text;
}

/** A path as the file system has to be given it. */
export function onDisk(path: string): string | Buffer {
  if (!hasForeignBytes(path)) return path;
  const parts = [...path].map((character) => {
    const code = character.codePointAt(0)!;
    const isByte = code >= HIDDEN_BYTE + 0x80 && code <= HIDDEN_BYTE + 0xff;
    return isByte ? Buffer.of(code - HIDDEN_BYTE) : Buffer.from(character);
  });
  return Buffer.concat(parts);
}

/** How many bytes the character takes that begins there; 0 where none does. */
function lengthOfCharacter(bytes: Buffer, at: number): number {
  const first = bytes[at]!;
  if (first < 0x80) return 1;
  const length = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : first >= 0xc0 ? 2 : 0;
  const piece = bytes.subarray(at, at + length);
  return length > 0 && Buffer.from(piece.toString('utf8')).equals(piece) ? length : 0;
}
