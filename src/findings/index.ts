// Findings: what is said about captures, sheets, intervals and settlements, as data.
// In: nothing. Out: the shape of a finding, the registry of codes, ways to make and order findings.
// Must not know: anything else of this project.
export {
  adviseAtCabinet,
  CABINET_CAUTIONS,
  CAUTIONS,
  type CautionName,
  type CautiousAdvice,
  COUNT_CAUTIONS,
  cautionsOf,
  findCaution,
  sayCautions,
} from './cautions.js';
export { FINDING_CODES, type FindingCode } from './codes.js';
export {
  compareSeverity,
  type Finding,
  type FindingDetail,
  makeFinding,
  type Place,
  type Severity,
  worstSeverity,
} from './finding.js';
export { printable } from './printable.js';
