import { decodeLatin1 } from '../bytes/index.js';

/** Text of a sheet, or why there is none. `coding` is said when the text is anything but plain UTF-8. */
export type DecodedText =
  | { readonly text: string; readonly coding: string | null }
  | { readonly text: null; readonly problem: string };

/** Characters of the bytes 80h to 9Fh in windows-1252, as the WHATWG Encoding Standard has them (from memory). */
const WINDOWS_1252_HIGH = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';
const PEEK_BYTES = 1000;

const startsWith = (bytes: Uint8Array, ...start: readonly number[]): boolean =>
  start.every((byte, i) => bytes[i] === byte);

/**
 * Turn the content of an office sheet into text: UTF-8 with or without a byte-order mark, UTF-16 with one, and
 * windows-1252 (of which Latin-1's letters are a part) for bytes that are no UTF-8.
 *
 * @param content - bytes as they came, or text that someone else decoded
 * @returns the text without its mark, or a problem (a clause such as `is a zip archive …`); never throws
 */
export function decodeText(content: string | Uint8Array): DecodedText {
  const decoded =
    typeof content === 'string' ? { text: content.replace(/^\ufeff/, ''), coding: null } : decodeBytes(content);
  if (decoded.text === null) return decoded;
  if (decoded.text.trim() === '') return { text: null, problem: 'is empty' };
  return decoded.text.includes('\0') ? { text: null, problem: describeNul(decoded.text) } : decoded;
}

function decodeBytes(bytes: Uint8Array): DecodedText {
  if (startsWith(bytes, 0x50, 0x4b, 0x03, 0x04)) {
    return {
      text: null,
      problem: 'is a zip archive, the form in which spreadsheet programs keep their own files, and no CSV text',
    };
  }
  if (startsWith(bytes, 0xff, 0xfe)) return decodeUtf16(bytes, 'utf-16le', 'UTF-16 (low byte first)');
  if (startsWith(bytes, 0xfe, 0xff)) return decodeUtf16(bytes, 'utf-16be', 'UTF-16 (high byte first)');
  const hasMark = startsWith(bytes, 0xef, 0xbb, 0xbf);
  const text = decodeStrictly(bytes, 'utf-8');
  if (text !== null) return { text, coding: hasMark ? 'text in UTF-8 with a byte-order mark' : null };
  return {
    text: decodeWindows1252(hasMark ? bytes.subarray(3) : bytes),
    coding: 'text in windows-1252, since it is no valid UTF-8',
  };
}

function decodeUtf16(bytes: Uint8Array, label: string, name: string): DecodedText {
  const text = decodeStrictly(bytes, label);
  return text === null
    ? { text, problem: `begins as ${name} and does not go on so` }
    : { text, coding: `text in ${name}` };
}

/** The decoder takes a byte-order mark away. */
function decodeStrictly(bytes: Uint8Array, label: string): string | null {
  try {
    return new TextDecoder(label, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

// Not left to TextDecoder: some releases of Node read windows-1252 as Latin-1 and so lose the euro sign.
function decodeWindows1252(bytes: Uint8Array): string {
  return decodeLatin1(bytes).replace(/[\u0080-\u009f]/g, (control) => WINDOWS_1252_HIGH[control.charCodeAt(0) - 0x80]!);
}

function describeNul(text: string): string {
  const peek = text.slice(0, PEEK_BYTES);
  const nuls = peek.split('\0').length - 1;
  return nuls * 3 > peek.length && nuls < peek.length
    ? 'has a NUL beside almost every character, as UTF-16 text without its byte-order mark has'
    : 'holds NUL characters, so it is no text';
}
