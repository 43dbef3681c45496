/** One byte a character, Latin-1, so that any byte can be written in a test. Throws on a character above FFh. */
export function bytesOf(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code > 0xff) throw new RangeError(`character ${JSON.stringify(text[i])} at ${i} is not Latin-1`);
    bytes[i] = code;
  }
  return bytes;
}

/** The inverse of {@link bytesOf}. */
export function textOf(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
}

/** Put byte arrays one after the other, as in a day's captures joined into one file. */
export function joinCaptures(...captures: readonly Uint8Array[]): Uint8Array {
  const joined = new Uint8Array(captures.reduce((sum, capture) => sum + capture.length, 0));
  let at = 0;
  for (const capture of captures) {
    joined.set(capture, at);
    at += capture.length;
  }
  return joined;
}
