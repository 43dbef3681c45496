import { buildCapture } from '../../support/build-capture.js';
import type { GivenFile } from './check-html.js';

/** What a page could take for its own, were it not shown as text: each says so on the console or in a dialog. */
export const HOSTILE_TEXTS: readonly string[] = [
  '<script>alert(1)</script>',
  '</script><img src=x onerror=alert(2)>',
  '"><svg onload=alert(3)>',
  'javascript:alert(4)',
  '=HYPERLINK("http://example.invalid","x")',
  '\u001b[2J\u001b[31mANSI\u0007',
  '{{7*7}}',
  '&lt;b&gt;&#60;i&#62;',
];

/** Latin-1 text of one element: what no capture can carry inside one is left out. */
const inElement = (text: string): string => text.replace(/[*\r\n]/g, '');

/** Captures that carry such text wherever a page shows text of a capture. */
export const HOSTILE_FILES: readonly GivenFile[] = [
  ...HOSTILE_TEXTS.map((text, i) => {
    const hostile = inElement(text);
    const segments = [
      `ID1*${hostile}*${hostile}****${hostile}`,
      `ID4*2*978*${hostile}`,
      `ID5*${hostile}*${hostile}`,
      `VA1*${hostile}*1`,
      `PA1*${hostile}*100*${hostile}`,
      'PA2*1*100',
      `EA1*${hostile}*${hostile}*1015`,
      `${hostile.slice(0, 3)}*${hostile}`,
    ];
    return { name: `hostile-${i}.dex`, content: buildCapture(segments, i % 2 === 0 ? {} : { crc: hostile }) };
  }),
  {
    name: 'long-element.dex',
    content: buildCapture([
      `ID1*${'<b>long</b>'.repeat(10_000)}*M1****A1`,
      `PA1*${'x'.repeat(100_000)}*100`,
      'VA1*1*1',
    ]),
  },
];
