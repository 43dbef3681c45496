import { expect, it } from 'vitest';
import { Mark, renderPart, SeverityMark, VerdictMark, VisitMark } from '../../../src/pages/frame/index.js';
import { textOf } from '../support/look-at-page.js';

it('every mark says its state in a word, so that none is told by colour or sign alone', () => {
  const marks = [
    ...(['fault', 'doubt', 'note'] as const).map(
      (severity) => [severity, <SeverityMark severity={severity} />] as const,
    ),
    ...(['sound', 'doubtful'] as const).map((verdict) => [verdict, <VerdictMark verdict={verdict} />] as const),
    ['read again', <VerdictMark verdict="read-again" />] as const,
    ...(['agreed', 'over', 'short', 'uncounted', 'unread', 'unsettled'] as const).map(
      (state) => [state, <VisitMark state={state} />] as const,
    ),
    ['not closed', <Mark tone="plain" sign="·" word="not closed" />] as const,
  ];
  for (const [word, mark] of marks) {
    const html = renderPart(mark);
    expect(textOf(html)).toMatch(new RegExp(`${word}$`));
    expect(html).toMatch(/<span class="sign" aria-hidden="true">.<\/span>/);
  }
});
