import { describe, expect, it } from 'vitest';
import { malformedCheck } from '../../src/checks/malformed.js';
import { changeSegments, checkCases, runCase } from '../support/check-cases.js';

const put = (segment: string): string[] => changeSegments({ put: [segment] });
const add = (segment: string): string[] => changeSegments({ add: [segment] });

checkCases('malformed elements', malformedCheck, {
  clean: [
    // A sign is allowed (domain rule); absent is no flaw.
    { name: 'signs', segments: put('PA2*+10*-1500') },
    { name: 'absent elements', segments: put('PA2*10**2') },
    { name: 'dates and times of every length', segments: add('EA5*20261124*101500') },
    { name: 'a date that was never set', segments: add('EA5*000000*0000') },
    { name: 'a large number that can be kept', segments: put('VA1*9007199254740991*1') },
    // Elements beyond those of the dictionary are the maker's own.
    { name: 'extra elements', segments: put('CA4*50*0*300*0*abc') },
    // A country code in ID402 is no fault (Saeco Freestanding 400, p. 29).
    { name: 'a country code in place of a currency number', segments: put('ID4*2*1*EUR') },
    { name: 'a country code that is no number at all', segments: put('ID4*2*IT*EUR') },
  ],
  failing: [
    {
      name: 'letters in the value of a column',
      segments: put('PA2*10*15O0*2*300'),
      code: 'not-a-number',
      severity: 'fault',
      message: /^PA202 reads "15O0", which is no whole number\.$/,
      at: { segment: 'PA2', element: 'PA202', line: 20, received: '15O0' },
    },
    {
      name: 'a decimal point',
      segments: put('VA1*30.00*20*600*4'),
      code: 'not-a-number',
      severity: 'fault',
      at: { element: 'VA101' },
    },
    { name: 'a sign alone', segments: put('CA3*-'), code: 'not-a-number', severity: 'fault' },
    {
      name: 'letters in a price',
      segments: put('PA1*11*free'),
      code: 'not-a-number',
      severity: 'fault',
      at: { element: 'PA102' },
    },
    {
      name: 'letters in a capacity',
      segments: put('PA1*11*150*P*x'),
      code: 'not-a-number',
      severity: 'doubt',
      at: { element: 'PA104' },
    },
    {
      name: 'letters in a count of reads',
      segments: add('CA6*x'),
      code: 'not-a-number',
      severity: 'doubt',
      at: { element: 'CA601' },
    },
    { name: 'letters in an event count', segments: put('EA2*EGS*x'), code: 'not-a-number', severity: 'doubt' },
    {
      name: 'letters in a price list',
      segments: add('LA1*0*11*150*1*x'),
      code: 'not-a-number',
      severity: 'fault',
      at: { element: 'LA105' },
    },
    {
      name: 'a number that can not be kept',
      segments: put('VA1*9007199254740992*1'),
      code: 'value-too-large',
      severity: 'fault',
      message: /^VA101 reads 9007199254740992, more than can be kept exactly\.$/,
    },
    {
      name: 'a large number where it matters less',
      segments: add('CA6*99999999999999999'),
      code: 'value-too-large',
      severity: 'doubt',
    },
    {
      name: 'a date that does not exist',
      segments: put('ID5*260230*1015'),
      code: 'bad-date',
      severity: 'doubt',
      message: /^ID501 reads "260230", a date that does not exist\.$/,
      at: { element: 'ID501' },
    },
    {
      name: 'a time that does not exist',
      segments: put('ID5*261124*2460'),
      code: 'bad-date',
      severity: 'doubt',
      message: /a time that/,
    },
    { name: 'a date of letters', segments: add('EA4*2611xx*1015'), code: 'bad-date', severity: 'doubt' },
    { name: 'a date of the wrong length', segments: add('EA4*2611*1015'), code: 'bad-date', severity: 'doubt' },
    { name: 'a time of the wrong length', segments: add('EA4*261124*101'), code: 'bad-date', severity: 'doubt' },
  ],
});

describe('malformed elements', () => {
  it('are told worst first and, beyond twenty, together', () => {
    const many = Array.from({ length: 30 }, (_, index) => `EA1*E${index}*261399*1015`);
    const findings = runCase(malformedCheck, { name: 'many', segments: changeSegments({ put: ['PA2*x'], add: many }) });
    expect(findings).toHaveLength(21);
    expect(findings[0]).toMatchObject({ code: 'not-a-number', severity: 'fault' });
    expect(findings[20]).toMatchObject({
      code: 'bad-date',
      severity: 'doubt',
      message: '11 more elements are malformed.',
    });
  });
});
