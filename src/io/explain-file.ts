import type { CaptureCircumstances } from '../checks/index.js';
import { CaptureExplainer, type ExplainedSegment } from '../explain/index.js';
import type { Finding } from '../findings/index.js';
import { sayUnreadable } from './file-problem.js';
import { readCaptureChunks } from './read-capture-chunks.js';
import { currentWorkplace, type Workplace } from './workplace.js';

/**
 * Put a capture file in words, segment by segment, as its bytes come in. The generator's return value holds the findings
 * about the file; memory stays flat.
 */
export async function* explainFile(
  file: string,
  circumstances: CaptureCircumstances,
  workplace: Workplace = currentWorkplace(),
): AsyncGenerator<ExplainedSegment, readonly Finding[]> {
  const explainer = new CaptureExplainer(file, circumstances);
  let ready: ExplainedSegment[] = [];
  const keep = (segment: ExplainedSegment): void => {
    ready.push(segment);
  };
  try {
    for await (const chunk of readCaptureChunks(file, workplace)) {
      explainer.push(chunk, keep);
      yield* ready;
      ready = [];
    }
  } catch (error) {
    return [sayUnreadable(file, error)];
  }
  const { findings } = explainer.end(keep);
  yield* ready;
  return findings.map((finding) => ({ file, ...finding }));
}
