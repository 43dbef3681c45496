// What the office knows of a read is looked up where the checks are, which need it first.
export {
  type CaptureCircumstances,
  type MoneyDefaults,
  type ResolvedRead,
  resolveRead,
} from '../checks/resolve-read.js';
