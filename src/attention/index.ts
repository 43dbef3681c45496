// Attention: a day's checks, intervals, visits and history → one list of what a person has to look at, worst first.
// In: what the earlier layers found, sorted by machine, and what each machine did before. Out: items with the money at
// stake, how it was estimated, and what to do; what every column vended since its last fill.
// Must not know: where captures are kept, how a list is shown.
export { type AdjustedRound, lookAtAdjusted } from './adjusted-round.js';
export { ATTENTION_CAUSES, type AttentionCause, type AttentionItem } from './attention-item.js';
export { CAUSE_OF_CODE } from './causes.js';
export { type FillBasis, type FillEvidence, findLastFill, type LastFill } from './find-fill.js';
export { judgeQuiet, logOfAllBefore, QUIET_PROBABILITY, type Quiet } from './judge-quiet.js';
export type { SoldOut } from './judge-sold-out.js';
export { listAttention, listAttentionOf } from './list-attention.js';
export { lookAtMachine, lookAtSetAside } from './look-at-machine.js';
export type { DayRead, MachineDay, MachineName } from './machine-day.js';
export { findOneSided, lookAtOneSided, MOST_BAGS, type OneSided, type SettledBags } from './one-sided.js';
export { orderAttention } from './order-attention.js';
export { outlineFigures, outlineInterval, type Past, type PastColumn, type PastStretch } from './sales-history.js';
export { type AttentionInputs, type SplitDay, splitDay } from './split-day.js';
export { type Stake, type StakeBound, weighStake } from './stake.js';
export { type ColumnStock, type MachineStock, measureStock, type StockDoubt, type StockEvidence } from './stock.js';
