import { parseSegments, type SegmentBlock } from '../../src/segments/index.js';
import { bytesOf } from '../support/latin1-bytes.js';
import { factsOf, type LineFacts } from './reference-lines.js';

/** The blocks of a capture written as text. */
export const parseText = (text: string): SegmentBlock[] => parseSegments(bytesOf(text));

/** The facts of all lines of a capture written as text. */
export const parseFacts = (text: string): LineFacts[] => factsOf(parseText(text));
