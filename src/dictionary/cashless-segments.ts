import { defineElement, defineSegment } from './define.js';
import { MEMORY } from './sources.js';

/** Segments of the cashless devices and tokens, as the element dictionary lists them. */
export const CASHLESS_SEGMENTS = [
  defineSegment('DA2', 'cashless 1 sales', 'once', [
    defineElement('DA201', 'cashless 1 sales, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('DA202', 'cashless 1 sales, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('DA203', 'cashless 1 sales, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('DA204', 'cashless 1 sales, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('DA3', 'cashless 1 debits', 'once', [
    defineElement('DA301', 'debited from cards, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('DA302', 'debited from cards, value, since last reset', 'money', 'reset', MEMORY),
  ]),
  defineSegment('DA4', 'cashless 1 credits', 'once', [
    defineElement('DA401', 'credited to cards, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('DA402', 'credited to cards, value, since last reset', 'money', 'reset', MEMORY),
  ]),
  defineSegment('DA5', 'cashless 1 discounts', 'once', [
    defineElement('DA501', 'cashless discounts, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('DA502', 'cashless discounts, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('DA503', 'cashless discounts, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('DA504', 'cashless discounts, number, since initialisation', 'count', 'init', MEMORY),
  ]),
  defineSegment('DB2', 'cashless 2 sales', 'once', [
    defineElement('DB201', 'cashless 2 sales, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('DB202', 'cashless 2 sales, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('DB203', 'cashless 2 sales, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('DB204', 'cashless 2 sales, number, since last reset', 'count', 'reset', MEMORY),
  ]),
  defineSegment('DB3', 'cashless 2 debits', 'once', [
    defineElement('DB301', 'debited from cards, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('DB302', 'debited from cards, value, since last reset', 'money', 'reset', MEMORY),
  ]),
  defineSegment('DB4', 'cashless 2 credits', 'once', [
    defineElement('DB401', 'credited to cards, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('DB402', 'credited to cards, value, since last reset', 'money', 'reset', MEMORY),
  ]),
  defineSegment('DB5', 'cashless 2 discounts', 'once', [
    defineElement('DB501', 'cashless discounts, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('DB502', 'cashless discounts, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('DB503', 'cashless discounts, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('DB504', 'cashless discounts, number, since initialisation', 'count', 'init', MEMORY),
  ]),
  defineSegment('TA2', 'token sales', 'once', [
    defineElement('TA201', 'vend tokens taken, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('TA202', 'vend tokens taken, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('TA203', 'vend tokens taken, value, since last reset', 'money', 'reset', MEMORY),
    defineElement('TA204', 'vend tokens taken, number, since last reset', 'count', 'reset', MEMORY),
  ]),
] as const;
