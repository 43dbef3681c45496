import { defineElement, defineSegment } from './define.js';
import { L0190D, LAVAZZA_LB2000, MEMORY, SAECO_400 } from './sources.js';

/** Segments of the events, reads, resets and machine status, as the element dictionary lists them. */
export const EVENT_SEGMENTS = [
  defineSegment('EA1', 'event with its time', 'many', [
    defineElement('EA101', 'event code', 'code', null, MEMORY),
    defineElement('EA102', 'date', 'date', null, MEMORY),
    defineElement('EA103', 'time', 'time', null, MEMORY),
    defineElement('EA104', 'duration in minutes', 'count', null, MEMORY),
  ]),
  defineSegment('EA2', 'event counter', 'many', [
    defineElement('EA201', 'event code (a word on some makers)', 'text', null, LAVAZZA_LB2000),
    defineElement('EA202', 'events, number, since last reset', 'count', 'reset', LAVAZZA_LB2000),
    defineElement('EA203', 'events, number, since initialisation', 'count', 'init', LAVAZZA_LB2000),
    defineElement('EA204', 'active now (1) or not (0)', 'code', null, MEMORY),
  ]),
  defineSegment('EA3', 'reads', 'once', [
    defineElement(
      'EA301',
      'reads with reset, number, since initialisation (on some makers all reads, or a reading identifier)',
      'count',
      'init',
      L0190D,
      SAECO_400,
      LAVAZZA_LB2000,
    ),
    defineElement('EA302', 'date of this read', 'date', null, L0190D),
    defineElement('EA303', 'time of this read', 'time', null, L0190D),
    defineElement('EA304', 'identifier of this reader', 'text', null, L0190D),
    defineElement('EA305', 'date of the last read', 'date', null, L0190D),
    defineElement('EA306', 'time of the last read', 'time', null, L0190D),
    defineElement('EA307', 'identifier of the last reader', 'text', null, L0190D),
    defineElement('EA308', 'user-defined field', 'text', null, L0190D),
    defineElement('EA309', 'reads, number, since initialisation', 'count', 'init', L0190D),
    defineElement('EA310', 'resets, number, since initialisation', 'count', 'init', L0190D),
  ]),
  defineSegment('EA4', 'initialisation', 'once', [
    defineElement('EA401', 'date of (first) initialisation', 'date', null, L0190D),
    defineElement('EA402', 'time of (first) initialisation', 'time', null, L0190D),
    defineElement('EA403', 'identifier of the reader that initialised', 'text', null, L0190D),
  ]),
  defineSegment('EA5', 'price change', 'once', [
    defineElement('EA501', 'date of the last price change', 'date', null, MEMORY),
    defineElement('EA502', 'time of the last price change', 'time', null, MEMORY),
    defineElement('EA503', 'identifier of the device that changed it', 'text', null, MEMORY),
  ]),
  defineSegment('EA6', 'clock change', 'once', [
    defineElement('EA601', 'date before the change', 'date', null, MEMORY),
    defineElement('EA602', 'time before the change', 'time', null, MEMORY),
    defineElement('EA603', 'date after the change', 'date', null, MEMORY),
    defineElement('EA604', 'time after the change', 'time', null, MEMORY),
  ]),
  defineSegment('EA7', 'power outages', 'once', [
    defineElement('EA701', 'power outages, number, since last reset', 'count', 'reset', L0190D),
    defineElement('EA702', 'power outages, number, since initialisation', 'count', 'init', L0190D),
  ]),
  defineSegment('MA5', 'machine status, maker-defined', 'many', [
    defineElement('MA501', 'status identifier (TEMP, FAIL and others, by maker)', 'code', null, L0190D),
    defineElement(
      'MA502',
      'status value 1 (TEMP: cabinet temperature in degrees Fahrenheit; FAIL: sum of failure bits)',
      'text',
      null,
      L0190D,
    ),
    defineElement('MA503', 'status value 2 (TEMP: cabinet temperature in degrees Celsius)', 'text', null, L0190D),
  ]),
] as const;
