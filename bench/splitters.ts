import { parse as parseCsv } from 'csv-parse/sync';
import Papa from 'papaparse';
import { inferSchema, initParser } from 'udsv';
import { parseSegments } from '../src/segments/index.js';

/** Something that takes a capture apart. Gives a number, so that its work can not be left out as unused. */
export interface Splitter {
  readonly name: string;
  readonly split: (capture: Buffer) => number;
  /** So slow that fewer captures have to do. */
  readonly isSlow?: boolean;
}

/**
 * Ours, and three general splitters of delimited text on the same bytes. These make rows of strings and nothing else: no
 * places, no CRC.
 *
 * @param sample - a capture by which udsv infers its columns
 */
export function makeSplitters(sample: Buffer): Splitter[] {
  // In its unquoted mode udsv never ends on rows of different lengths. In its quoted mode it ends, but a row shorter than
  // the first takes its line ending and the next row's identifier in as one string: it does less than was asked.
  const schema = inferSchema(sample.toString('latin1'), { col: '*', row: '\r\n', encl: '"', header: () => [] });
  const udsv = initParser(schema);
  return [
    { name: 'segments + CRC', split: (capture) => parseSegments(capture)[0]!.lineCount },
    { name: 'udsv', split: (capture) => udsv.stringArrs(capture.toString('latin1')).length },
    {
      name: 'papaparse',
      split: (capture) => Papa.parse(capture.toString('latin1'), { delimiter: '*', newline: '\r\n' }).data.length,
    },
    {
      name: 'csv-parse',
      split: (capture) => parseCsv(capture, { delimiter: '*', relax_column_count: true, quote: false }).length,
      isSlow: true,
    },
  ];
}
