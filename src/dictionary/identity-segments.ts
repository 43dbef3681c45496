import { defineElement, defineSegment } from './define.js';
import { L0118P, L0190D, LAVAZZA_LB2000, MEMORY, SAECO_400, WITTERN } from './sources.js';

/** Segments of the machine, board and payment devices, as the element dictionary lists them. */
export const IDENTITY_SEGMENTS = [
  defineSegment('ID1', 'machine identification', 'once', [
    defineElement('ID101', 'machine serial number', 'text', null, L0190D),
    defineElement('ID102', 'machine model number', 'text', null, L0190D),
    defineElement(
      'ID103',
      'machine build standard (memory); software version on some makers',
      'text',
      null,
      SAECO_400,
      LAVAZZA_LB2000,
    ),
    defineElement('ID104', 'machine location', 'text', null, MEMORY),
    defineElement('ID105', 'user-defined field', 'text', null, MEMORY),
    defineElement('ID106', 'machine asset number', 'text', null, L0190D),
    defineElement('ID107', 'data transfer standard level', 'count', null, L0190D),
    defineElement('ID108', 'data transfer standard revision', 'count', null, L0190D),
  ]),
  defineSegment('ID4', 'currency', 'once', [
    defineElement('ID401', 'decimal point position', 'count', null, L0190D),
    defineElement(
      'ID402',
      'numeric currency code (ISO 4217); a country code on some makers',
      'text',
      null,
      L0190D,
      SAECO_400,
    ),
    defineElement('ID403', 'alphabetic currency code (ISO 4217)', 'text', null, L0190D),
  ]),
  defineSegment('ID5', 'machine clock', 'once', [
    defineElement('ID501', 'machine date (YYMMDD; YYYYMMDD from memory)', 'date', null, L0190D, LAVAZZA_LB2000),
    defineElement('ID502', 'machine time (HHMM; HHMMSS from memory)', 'time', null, L0190D, LAVAZZA_LB2000),
    defineElement('ID503', 'seconds', 'count', null, MEMORY),
    defineElement('ID504', 'daylight saving rule (OFF, NA, MEX, EU, AUS)', 'code', null, L0190D),
  ]),
  defineSegment('IC1', 'machine identification as loaded into the machine', 'once', [
    defineElement('IC101', 'machine serial number', 'text', null, L0190D),
    defineElement('IC106', 'machine asset number', 'text', null, WITTERN),
  ]),
  defineSegment('IC5', 'clock as loaded into the machine (no second clock)', 'once', [
    defineElement('IC501', 'date (YYMMDD)', 'date', null, L0190D),
    defineElement('IC502', 'time (HHMM)', 'time', null, L0190D),
    defineElement('IC504', 'daylight saving rule', 'code', null, L0190D),
  ]),
  defineSegment('CB1', 'control board identification', 'once', [
    defineElement('CB101', 'control board serial number', 'text', null, MEMORY),
    defineElement('CB102', 'control board model number', 'text', null, MEMORY),
    defineElement('CB103', 'control board software revision', 'text', null, MEMORY),
    defineElement('CB104', 'control board user-defined field', 'text', null, MEMORY),
    defineElement('CB105', 'control board asset number', 'text', null, MEMORY),
  ]),
  defineSegment('AM1', 'audit module identification', 'once', [
    defineElement('AM101', 'audit module serial number', 'text', null, MEMORY),
    defineElement('AM102', 'audit module model number', 'text', null, MEMORY),
    defineElement('AM103', 'audit module software revision', 'text', null, MEMORY),
    defineElement('AM104', 'audit module user-defined field', 'text', null, MEMORY),
    defineElement('AM105', 'audit module asset number', 'text', null, MEMORY),
  ]),
  defineSegment('BA1', 'bill validator identification', 'once', [
    defineElement('BA101', 'bill validator serial number', 'text', null, L0118P),
    defineElement('BA102', 'bill validator model number', 'text', null, L0118P),
    defineElement('BA103', 'bill validator software revision', 'text', null, L0118P),
    defineElement('BA104', 'bill validator user-defined field', 'text', null, MEMORY),
    defineElement('BA105', 'bill validator asset number', 'text', null, MEMORY),
  ]),
  defineSegment('CA1', 'coin mechanism identification', 'once', [
    defineElement('CA101', 'coin mechanism serial number', 'text', null, L0118P),
    defineElement('CA102', 'coin mechanism model number', 'text', null, L0118P),
    defineElement('CA103', 'coin mechanism software revision', 'text', null, L0118P),
    defineElement('CA104', 'coin mechanism user-defined field', 'text', null, MEMORY),
    defineElement('CA105', 'coin mechanism asset number', 'text', null, MEMORY),
  ]),
  defineSegment('DA1', 'cashless device 1 identification', 'once', [
    defineElement('DA101', 'cashless device 1 serial number', 'text', null, MEMORY),
    defineElement('DA102', 'cashless device 1 model number', 'text', null, MEMORY),
    defineElement('DA103', 'cashless device 1 software revision', 'text', null, MEMORY),
    defineElement('DA104', 'cashless device 1 user-defined field', 'text', null, MEMORY),
    defineElement('DA105', 'cashless device 1 asset number', 'text', null, MEMORY),
  ]),
  defineSegment('DB1', 'cashless device 2 identification', 'once', [
    defineElement('DB101', 'cashless device 2 serial number', 'text', null, MEMORY),
    defineElement('DB102', 'cashless device 2 model number', 'text', null, MEMORY),
    defineElement('DB103', 'cashless device 2 software revision', 'text', null, MEMORY),
    defineElement('DB104', 'cashless device 2 user-defined field', 'text', null, MEMORY),
    defineElement('DB105', 'cashless device 2 asset number', 'text', null, MEMORY),
  ]),
  defineSegment('TA1', 'token device identification', 'once', [
    defineElement('TA101', 'token device serial number', 'text', null, MEMORY),
    defineElement('TA102', 'token device model number', 'text', null, MEMORY),
    defineElement('TA103', 'token device software revision', 'text', null, MEMORY),
    defineElement('TA104', 'token device user-defined field', 'text', null, MEMORY),
    defineElement('TA105', 'token device asset number', 'text', null, MEMORY),
  ]),
] as const;
