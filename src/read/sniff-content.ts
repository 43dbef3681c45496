/** How many bytes from the start are looked at to say what a file is that is no capture. */
export const SNIFFED_BYTES = 512;

const SIGNATURES: readonly (readonly [readonly number[], string])[] = [
  [[0xff, 0xd8, 0xff], 'a JPEG picture'],
  [[0x89, 0x50, 0x4e, 0x47], 'a PNG picture'],
  [[0x47, 0x49, 0x46, 0x38], 'a GIF picture'],
  [[0x25, 0x50, 0x44, 0x46], 'a PDF document'],
  [[0x50, 0x4b, 0x03, 0x04], 'a ZIP archive or an office document'],
  [[0x1f, 0x8b], 'gzip-compressed data'],
  [[0xff, 0xfe], 'text in UTF-16 (two bytes a character)'],
  [[0xfe, 0xff], 'text in UTF-16 (two bytes a character)'],
];

/**
 * Say in words what the first bytes of a file look like, for a message about a file that is no capture.
 *
 * @param head - up to {@link SNIFFED_BYTES} bytes from the start; not empty
 * @see the formats' own published signatures (JPEG, PNG, GIF, PDF, ZIP, RFC 1952, Unicode byte order mark)
 */
export function sniffContent(head: Uint8Array): string {
  for (const [signature, name] of SIGNATURES) {
    if (signature.every((byte, at) => head[at] === byte)) return name;
  }
  const nuls = count(head, (byte) => byte === 0);
  if (nuls === head.length) return 'nothing but NUL bytes';
  if (nuls * 3 > head.length) return 'text in UTF-16 (two bytes a character), or binary data';
  const unprintable = count(head, (byte) => byte < 0x20 && byte !== 0x0a && byte !== 0x0d && byte !== 0x09);
  return unprintable * 10 > head.length ? 'binary data' : 'some other text';
}

function count(bytes: Uint8Array, matches: (byte: number) => boolean): number {
  let matched = 0;
  for (const byte of bytes) {
    if (matches(byte)) matched++;
  }
  return matched;
}
