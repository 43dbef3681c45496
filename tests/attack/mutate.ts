import { crc16Bitwise } from '../support/crc16-bitwise.js';
import type { SeededRandom } from '../support/demo/seeded-random.js';

/** One way to change the lines of a capture or a sheet. */
type Mutation = (text: string, random: SeededRandom) => string;

const WILD = [
  '',
  '0',
  '-0',
  '-1',
  '+5',
  '99999999',
  '9007199254740993',
  '1e9',
  ' 7',
  'x',
  '\u0000',
  '\u001b[2J',
  '*',
  'ÿÿ',
  '0x10',
];

const onLine =
  (change: (line: string, random: SeededRandom) => string): Mutation =>
  (text, random) => {
    const lines = text.split('\n');
    const at = random.nat(lines.length);
    lines[at] = change(lines[at]!, random);
    return lines.join('\n');
  };

const onElement = (change: (element: string, random: SeededRandom) => string): Mutation =>
  onLine((line, random) => {
    const separator = line.includes('*') ? '*' : ',';
    const elements = line.split(separator);
    const at = random.nat(elements.length);
    elements[at] = change(elements[at]!, random);
    return elements.join(separator);
  });

/** Replace a stretch of some length. */
const splice = (text: string, random: SeededRandom, insert: (removed: string) => string, most: number): string => {
  const at = random.nat(text.length + 1);
  const removed = text.slice(at, at + random.nat(most));
  return text.slice(0, at) + insert(removed) + text.slice(at + removed.length);
};

const MUTATIONS: readonly Mutation[] = [
  onElement((_, random) => random.pick(WILD)),
  onElement((element) => element.repeat(3)),
  onElement((element, random) => element.replace(/\d/, () => String(random.nat(10)))),
  onElement((element, random) =>
    /^\d+$/.test(element) ? String(Number(element) + random.nat(100_000) - 50_000) : element,
  ),
  onElement((element, random) => element + '*'.repeat(random.nat(40))),
  onLine(() => ''),
  onLine((line) => `${line}\n${line}`),
  onLine((line, random) => `${line}\n`.repeat(1 + random.nat(300))),
  onLine((line) => line.replace('\r', '')),
  onLine((line, random) =>
    random.pick([
      'ST*001*0001',
      'SE*3*0001',
      'DXS*A*VA*V1/1*1',
      'DXE*1*1',
      'G85*0000',
      'ID1',
      'LS*0100',
      'LE*0100',
      line,
    ]),
  ),
  (text, random) => text.slice(0, random.nat(text.length + 1)),
  (text, random) => text.slice(random.nat(text.length + 1)),
  (text, random) => splice(text, random, (removed) => removed.split('').reverse().join(''), 200),
  (text, random) =>
    splice(text, random, () => String.fromCharCode(...Array.from({ length: 20 }, () => random.nat(256))), 20),
  (text, random) => splice(text, random, (removed) => removed + text.slice(0, random.nat(2000)), 1),
  (text) => text.replaceAll('\r\n', '\n'),
  (text) => text + text,
  (text, random) => {
    const lines = text.split('\n');
    const [a, b] = [random.nat(lines.length), random.nat(lines.length)];
    [lines[a], lines[b]] = [lines[b]!, lines[a]!];
    return lines.join('\n');
  },
];

/** Change bytes in one to five ways, as chance has it. */
export function mutate(bytes: Uint8Array, random: SeededRandom): Uint8Array {
  let text = Buffer.from(bytes).toString('latin1');
  for (let left = 1 + random.nat(5); left > 0; left--) text = random.pick(MUTATIONS)(text, random);
  return Buffer.from(text.slice(0, 200_000), 'latin1');
}

/** Make the integrity value and the count of a changed capture fit again, as anybody can. */
export function reseal(bytes: Uint8Array): Uint8Array {
  const text = Buffer.from(bytes).toString('latin1');
  const [start, end] = [text.indexOf('ST*'), text.lastIndexOf('G85*')];
  if (start < 0 || end < start) return bytes;
  const value = crc16Bitwise(Buffer.from(text.slice(start, end), 'latin1'));
  const hex = value.toString(16).toUpperCase().padStart(4, '0');
  return Buffer.from(text.slice(0, end + 4) + hex + text.slice(end + 8), 'latin1');
}
