import { defineElement, defineSegment } from './define.js';
import { L0190D, MEMORY, SAECO_400 } from './sources.js';

/** Segments of the columns and price lists, as the element dictionary lists them. */
export const PRODUCT_SEGMENTS = [
  defineSegment('LA1', 'price list entry', 'many', [
    defineElement(
      'LA101',
      'price list number (meaning by maker: on one, 0 normal, 1-2 other, 3 card, 4 free, 5 test)',
      'text',
      null,
      SAECO_400,
    ),
    defineElement('LA102', 'product number', 'text', null, SAECO_400),
    defineElement('LA103', 'price', 'money', null, SAECO_400),
    defineElement('LA104', 'vends from this list, number, since last reset', 'count', 'reset', SAECO_400),
    defineElement('LA105', 'vends from this list, number, since initialisation', 'count', 'init', SAECO_400),
  ]),
  defineSegment('PA1', 'product (column or selection)', 'column', [
    defineElement('PA101', 'product number: the column or selection', 'text', null, L0190D),
    defineElement('PA102', 'price', 'money', null, L0190D),
    defineElement('PA103', 'product identification', 'text', null, L0190D),
    defineElement('PA104', 'capacity of the column', 'count', null, MEMORY),
    defineElement('PA105', 'standard filling level', 'count', null, MEMORY),
    defineElement('PA106', 'standard quantity dispensed', 'count', null, MEMORY),
    defineElement(
      'PA107',
      'selection status (1 = motor unplugged, on the machine of the source)',
      'code',
      null,
      L0190D,
    ),
  ]),
  defineSegment('PA2', 'product, paid vends', 'column', [
    defineElement('PA201', 'paid vends, number, since initialisation', 'count', 'init', L0190D),
    defineElement('PA202', 'paid vends, value, since initialisation', 'money', 'init', L0190D),
    defineElement('PA203', 'paid vends, number, since last reset', 'count', 'reset', L0190D),
    defineElement('PA204', 'paid vends, value, since last reset', 'money', 'reset', L0190D),
    defineElement('PA205', 'discounted paid vends, number, since initialisation', 'count', 'init', L0190D),
    defineElement('PA206', 'discounts, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('PA207', 'discounted paid vends, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('PA208', 'discounts, value, since last reset', 'money', 'reset', MEMORY),
  ]),
  defineSegment('PA3', 'product, test vends', 'column', [
    defineElement('PA301', 'test vends, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('PA302', 'test vends, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('PA303', 'test vends, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('PA304', 'test vends, value, since last reset', 'money', 'reset', MEMORY),
  ]),
  defineSegment('PA4', 'product, free vends', 'column', [
    defineElement('PA401', 'free vends, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('PA402', 'free vends, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('PA403', 'free vends, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('PA404', 'free vends, value, since last reset', 'money', 'reset', MEMORY),
  ]),
  defineSegment('PA5', 'product, sold out', 'column', [
    defineElement('PA501', 'date of the sold-out', 'date', null, MEMORY),
    defineElement('PA502', 'time of the sold-out', 'time', null, MEMORY),
    defineElement('PA503', 'sold-outs, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('PA504', 'sold-outs, number, since initialisation', 'count', 'init', MEMORY),
  ]),
  defineSegment('PA7', 'product, paid vends by payment device and price list', 'column', [
    defineElement('PA701', 'product number', 'text', null, MEMORY),
    defineElement('PA702', 'payment device (CA cash, DA cashless 1, DB cashless 2, TA token)', 'code', null, MEMORY),
    defineElement('PA703', 'price list number', 'text', null, MEMORY),
    defineElement('PA704', 'price applied', 'money', null, MEMORY),
    defineElement('PA705', 'vends, number, since initialisation', 'count', 'init', MEMORY),
    defineElement('PA706', 'vends, value, since initialisation', 'money', 'init', MEMORY),
    defineElement('PA707', 'vends, number, since last reset', 'count', 'reset', MEMORY),
    defineElement('PA708', 'vends, value, since last reset', 'money', 'reset', MEMORY),
  ]),
] as const;
