import { currencyCheck } from '../../src/checks/currency.js';
import { changeSegments, checkCases, machineRow } from '../support/check-cases.js';

const machine = machineRow({ currency: 'EUR', decimals: 2 });

checkCases('currency', currencyCheck, {
  clean: [
    { name: 'the currency of the roster', context: { machine } },
    { name: 'a roster that says nothing', context: { machine: machineRow() } },
    { name: 'a capture that says nothing', segments: changeSegments({ without: ['ID4'] }), context: { machine } },
    // Some makers put a country code where the ISO 4217 number goes (Saeco Freestanding 400, p. 29).
    { name: 'a country code', segments: changeSegments({ put: ['ID4*2*1*EUR'] }), context: { machine } },
  ],
  failing: [
    {
      name: 'another currency',
      segments: changeSegments({ put: ['ID4*2*840*USD'] }),
      context: { machine },
      code: 'currency-differs',
      severity: 'doubt',
      message: /^The machine counts in USD, the roster says EUR\.$/,
      at: { element: 'ID403' },
    },
    {
      name: 'other decimals',
      segments: changeSegments({ put: ['ID4*0*978*EUR'] }),
      context: { machine },
      code: 'currency-differs',
      severity: 'doubt',
      message: /^The machine counts with 0 decimals, the roster says 2\.$/,
      at: { element: 'ID401' },
    },
    {
      name: 'other decimals by profile',
      context: { machine, profile: { name: 'p', decimals: 3 } },
      code: 'currency-differs',
      severity: 'doubt',
      message: /with 3 decimals/,
    },
    {
      name: 'decimals that nothing says',
      segments: changeSegments({ without: ['ID4'] }),
      context: { decimals: null },
      code: 'decimals-unknown',
      severity: 'note',
      message: /^Nothing says how many decimals/,
    },
  ],
});
