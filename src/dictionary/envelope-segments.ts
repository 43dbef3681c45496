import { defineElement, defineSegment } from './define.js';
import { L0190D, MEMORY, X12 } from './sources.js';

/** Segments of the envelope, integrity and loops, as the element dictionary lists them. */
export const ENVELOPE_SEGMENTS = [
  defineSegment('DXS', 'transmission header', 'once', [
    defineElement(
      'DXS01',
      'communication identifier of the sender (3-letter maker code and 7 digits)',
      'text',
      null,
      MEMORY,
    ),
    defineElement('DXS02', 'functional identifier (VA = vending audit)', 'code', null, MEMORY),
    defineElement('DXS03', 'version of the transmission layout', 'text', null, MEMORY),
    defineElement('DXS04', 'transmission control number', 'count', null, MEMORY),
  ]),
  defineSegment('ST', 'transaction set header', 'once', [
    defineElement('ST01', 'transaction set identifier', 'code', null, X12),
    defineElement('ST02', 'transaction set control number', 'text', null, X12),
    defineElement('ST03', 'date and time appended by some readers (YYMMDDHHMMSS)', 'text', null, MEMORY),
  ]),
  defineSegment('G85', 'record integrity check', 'once', [
    defineElement(
      'G8501',
      'integrity check value: CRC-16 (4 hexadecimal digits, from memory)',
      'hex',
      null,
      L0190D,
      X12,
    ),
  ]),
  defineSegment('SE', 'transaction set trailer', 'once', [
    defineElement('SE01', 'number of segments in the set, ST and SE included', 'count', null, X12),
    defineElement('SE02', 'transaction set control number, equal to ST02', 'text', null, X12),
  ]),
  defineSegment('DXE', 'transmission trailer', 'once', [
    defineElement('DXE01', 'transmission control number, equal to DXS04', 'count', null, MEMORY),
    defineElement('DXE02', 'number of transaction sets in the transmission', 'count', null, MEMORY),
  ]),
  defineSegment('LS', 'loop header', 'many', [defineElement('LS01', 'loop identifier', 'code', null, X12)]),
  defineSegment('LE', 'loop trailer', 'many', [
    defineElement('LE01', 'loop identifier, equal to LS01', 'code', null, X12),
  ]),
] as const;
