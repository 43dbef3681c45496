import { ELEMENT } from '../dictionary/index.js';
import { type Finding, makeFinding } from '../findings/index.js';
import { type Check, NOTHING } from './check.js';

const AGREE = "Correct the roster, or have the machine's currency settings looked at: amounts would be off.";

/** Holds currency and decimals against the roster, and says when nothing tells the decimals. */
export const currencyCheck: Check = {
  codes: ['currency-differs', 'decimals-unknown'],
  summary: 'Whether currency and decimals are those of the roster, and are known at all.',
  reference: 'ISO 4217; ID4: manual L0190D, p. 42',
  run(read, { machine, profile, decimals }) {
    if (machine === null && decimals !== null) return NOTHING;
    const findings: Finding[] = [];
    const { currency } = read;
    if (machine?.currency != null && currency !== null && currency !== machine.currency) {
      findings.push(
        makeFinding('currency-differs', `The machine counts in ${currency}, the roster says ${machine.currency}.`, {
          ...read.place(ELEMENT.ID403),
          expected: machine.currency,
          received: currency,
          advice: AGREE,
        }),
      );
    }
    const own = profile?.decimals ?? read.decimals;
    if (machine?.decimals != null && own !== null && own !== machine.decimals) {
      findings.push(
        makeFinding(
          'currency-differs',
          `The machine counts with ${own} decimals, the roster says ${machine.decimals}.`,
          {
            ...read.place(ELEMENT.ID401),
            expected: String(machine.decimals),
            received: String(own),
            advice: AGREE,
          },
        ),
      );
    }
    if (decimals === null) {
      findings.push(
        makeFinding(
          'decimals-unknown',
          'Nothing says how many decimals the amounts have; they are shown as they stand.',
          {
            ...read.place(ELEMENT.ID401),
            advice: 'Give the decimals in the roster or by an option before you rely on amounts.',
          },
        ),
      );
    }
    return findings;
  },
};
