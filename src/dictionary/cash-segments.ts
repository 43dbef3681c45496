import { defineElement, defineSegment } from './define.js';
import { CRANE_INFINITY, L0118P, MEMORY, SAECO_400, WITTERN } from './sources.js';

/** Segments of the vend totals and cash, as the element dictionary lists them. */
export const CASH_SEGMENTS = [
  defineSegment('VA1', 'all paid vends', 'once', [
    defineElement('VA101', 'all paid vends, value, since initialisation', 'money', 'init', WITTERN, SAECO_400),
    defineElement('VA102', 'all paid vends, number, since initialisation', 'count', 'init', WITTERN, SAECO_400),
    defineElement('VA103', 'all paid vends, value, since last reset', 'money', 'reset', WITTERN, SAECO_400),
    defineElement('VA104', 'all paid vends, number, since last reset', 'count', 'reset', WITTERN, SAECO_400),
    defineElement('VA105', 'discounts on paid vends, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('VA106', 'discounted paid vends, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('VA107', 'discounts on paid vends, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('VA108', 'discounted paid vends, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('VA2', 'all test vends', 'once', [
    defineElement('VA201', 'all test vends, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('VA202', 'all test vends, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('VA203', 'all test vends, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('VA204', 'all test vends, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('VA3', 'all free vends', 'once', [
    defineElement('VA301', 'all free vends, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('VA302', 'all free vends, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('VA303', 'all free vends, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('VA304', 'all free vends, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('CA2', 'cash sales', 'once', [
    defineElement('CA201', 'cash sales, value, since initialisation', 'money', 'init', L0118P),
    defineElement('CA202', 'cash sales, number, since initialisation', 'count', 'init', L0118P),
    defineElement('CA203', 'cash sales, value, since last reset', 'money', 'reset', L0118P),
    defineElement('CA204', 'cash sales, number, since last reset', 'count', 'reset', L0118P),
  ]),
  defineSegment('CA3', 'cash in', 'once', [
    defineElement('CA301', 'cash in, value, since last reset', 'money', 'reset', L0118P),
    defineElement('CA302', 'cash to cash box, value, since last reset', 'money', 'reset', L0118P),
    defineElement('CA303', 'cash to tubes, value, since last reset', 'money', 'reset', L0118P),
    defineElement(
      'CA304',
      'bills in, since last reset (value; by an operator setting a number on some machines)',
      'money-or-count',
      'reset',
      L0118P,
      CRANE_INFINITY,
    ),
    defineElement('CA305', 'cash in, value, since initialisation', 'money', 'init', L0118P),
    defineElement('CA306', 'cash to cash box, value, since initialisation', 'money', 'init', L0118P),
    defineElement('CA307', 'cash to tubes, value, since initialisation', 'money', 'init', L0118P),
    defineElement(
      'CA308',
      'bills in, since initialisation (value; a number on some machines, from memory)',
      'money-or-count',
      'init',
      L0118P,
    ),
    defineElement('CA309', 'bills in, value, since last reset (level 6.0 layout)', 'money', 'reset', L0118P),
    defineElement('CA310', 'bills in, value, since initialisation (level 6.0 layout)', 'money', 'init', L0118P),
  ]),
  defineSegment('CA4', 'cash out', 'once', [
    defineElement('CA401', 'cash dispensed, value, since last reset', 'money', 'reset', L0118P),
    defineElement('CA402', 'cash dispensed by hand, value, since last reset', 'money', 'reset', L0118P),
    defineElement('CA403', 'cash dispensed, value, since initialisation', 'money', 'init', L0118P),
    defineElement('CA404', 'cash dispensed by hand, value, since initialisation', 'money', 'init', L0118P),
  ]),
  defineSegment('CA6', 'reads and door openings', 'once', [
    defineElement('CA601', 'audit reads, number, since initialisation', 'count', 'init', L0118P),
    defineElement('CA602', 'door openings, number, since initialisation', 'count', 'init', L0118P),
  ]),
  defineSegment('CA7', 'cash discounts', 'once', [
    defineElement('CA701', 'cash discounts, value, since last reset', 'money', 'reset', L0118P),
    defineElement('CA702', 'cash discounts, value, since initialisation', 'money', 'init', L0118P),
    defineElement('CA703', 'cash discounts, number, since last reset', 'count', 'reset', L0118P),
    defineElement('CA704', 'cash discounts, number, since initialisation', 'count', 'init', L0118P),
  ]),
  defineSegment('CA8', 'cash overpay', 'once', [
    defineElement('CA801', 'cash overpaid, value, since last reset', 'money', 'reset', L0118P),
    defineElement('CA802', 'cash overpaid, value, since initialisation', 'money', 'init', L0118P),
  ]),
  defineSegment('CA9', 'exact-change vends', 'once', [
    defineElement('CA901', 'vends while in exact-change condition, value, since last reset', 'money', 'reset', MEMORY),
    defineElement(
      'CA902',
      'vends while in exact-change condition, value, since initialisation',
      'money',
      'init',
      MEMORY,
    ),
  ]),
  defineSegment('CA10', 'cash filled', 'once', [
    defineElement('CA1001', 'cash filled into tubes by hand, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('CA1002', 'cash filled into tubes by hand, value, since initialisation', 'money', 'init', MEMORY),
  ]),
  defineSegment('CA11', 'coins accepted, one segment a coin value', 'many', [
    defineElement('CA1101', 'coin value', 'money', null, MEMORY),
    defineElement('CA1102', 'coins accepted, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('CA1103', 'coins to cash box, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('CA1104', 'coins to tubes, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('CA12', 'coins dispensed, one segment a coin value', 'many', [
    defineElement('CA1201', 'coin value', 'money', null, MEMORY),
    defineElement('CA1202', 'coins dispensed, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('CA1203', 'coins dispensed by hand, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('CA13', 'coins filled, one segment a coin value', 'many', [
    defineElement('CA1301', 'coin value', 'money', null, MEMORY),
    defineElement('CA1302', 'coins filled, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('CA14', 'bills accepted, one segment a bill value', 'many', [
    defineElement('CA1401', 'bill value', 'money', null, MEMORY),
    defineElement('CA1402', 'bills accepted, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('CA1403', 'bills to stacker, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('CA15', 'tube contents', 'once', [
    defineElement('CA1501', 'tube contents, value now', 'money', 'level', MEMORY),
  ]),
  defineSegment('CA17', 'one coin tube', 'many', [
    defineElement('CA1701', 'tube or coin type number', 'text', null, MEMORY),
    defineElement('CA1702', 'coin value', 'money', null, MEMORY),
    defineElement('CA1703', 'coins in the tube now', 'count', 'level', MEMORY),
  ]),
] as const;
