// Explain: a capture in words, element by element; the arithmetic behind any figure of an interval or settlement.
// In: bytes of captures with what the office knows of them; intervals and settlements. Out: explanations as data.
// Must not know: how they are shown, files.

export { elementWords, type ReadMoney, writeDateWords } from './element-words.js';
export { CaptureExplainer, type ExplainedSink, explainCapture } from './explain-capture.js';
export {
  type ExplainedElement,
  type ExplainedSegment,
  explainSegment,
  type SegmentSetting,
} from './explain-segment.js';
export { nameElements } from './name-elements.js';
export { type FigureSource, listFigureIds, traceFigure } from './trace-figure.js';
export { type FigureTrace, recompute, type TraceHow, type TraceStep } from './trace-step.js';
export { PARTLY_CONFIRMED, UNCONFIRMED } from './unconfirmed-elements.js';
