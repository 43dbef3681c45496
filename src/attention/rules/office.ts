import { CABINET_CAUTIONS } from '../../findings/index.js';
import { type CauseRule, tellWorst } from '../cause-rule.js';
import { stakeNotKnown } from '../stake.js';

/** Currencies and decimals that do not agree. */
export const moneyUnitRule: CauseRule = {
  cause: 'money-unit',
  todo: "Correct the roster, or have the machine's money settings looked at, before its amounts are relied on.",
  cautions: CABINET_CAUTIONS,
  tell: tellWorst,
  weigh: () => stakeNotKnown('Not known: amounts cannot be relied on until it is clear what they are in.'),
};

/** Deposits and statements that do not come out. */
export const accountsOpenRule: CauseRule = {
  cause: 'accounts-open',
  todo: 'Compare with what the processor or the contract says, and ask there.',
  cautions: ['accounts'],
  tell: tellWorst,
  weigh: () => stakeNotKnown('Not known: the statement or deposit says how much it is, as far as that is known.'),
};

/** Sheets and profiles with something wrong in them. */
export const officeSheetRule: CauseRule = {
  cause: 'office-sheet',
  todo: 'Correct the sheet or profile; what was refused has no effect.',
  cautions: [],
  tell: tellWorst,
  weigh: () => stakeNotKnown('Not known: it depends on what the row was to say.'),
};

/** Defects of this program. */
export const programRule: CauseRule = {
  cause: 'program',
  todo: 'Report it with the capture: it is a defect of this program. All other checks were made.',
  cautions: [],
  tell: tellWorst,
  weigh: () => stakeNotKnown('Not known: the check that failed might have found something.'),
};
