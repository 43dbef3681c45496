/**
 * The bytes from `start` up to `end` as text, one character a byte (Latin-1), so that any byte survives the way there
 * and back. Not `TextDecoder('latin1')`: that one is Windows-1252 by the Encoding Standard and changes 80h to 9Fh.
 */
export function decodeLatin1(bytes: Uint8Array, start = 0, end = bytes.length): string {
  if (end - start <= SHORT) return decodeShort(bytes, start, end);
  const PIECE = 8192; // an argument list has a limit
  let text = '';
  for (let at = start; at < end; at += PIECE) {
    // biome-ignore lint/plugin: PIECE bounds it
    text += String.fromCharCode.apply(null, bytes.subarray(at, Math.min(at + PIECE, end)) as unknown as number[]);
  }
  return text;
}

/** Up to so many bytes are copied one by one, because a subarray costs more than that. Almost every element is short. */
const SHORT = 24;

function decodeShort(bytes: Uint8Array, start: number, end: number): string {
  const codes: number[] = new Array(end - start);
  for (let at = start; at < end; at++) codes[at - start] = bytes[at]!;
  // biome-ignore lint/plugin: SHORT bounds it
  return String.fromCharCode.apply(null, codes);
}

/** Text of {@link decodeLatin1} back to bytes. Characters above FFh do not come from there and lose their high bits. */
export function encodeLatin1(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}
