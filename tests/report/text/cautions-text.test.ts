import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../../src/checks/index.js';
import { adviseAtCabinet, CAUTIONS, makeFinding, sayCautions } from '../../../src/findings/index.js';
import { checkToJson } from '../../../src/report/index.js';
import { layCautions } from '../../../src/report/text/cautions-text.js';
import { ChecksReport } from '../../../src/report/text/checks-text.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import { buildCapture } from '../../support/build-capture.js';
import { GOOD_SEGMENTS } from '../../support/check-cases.js';

describe('cautions in a report', () => {
  it('stand at its end, each once', () => {
    const lines = layCautions(['tilt', 'harness', 'tilt'], PLAIN_STYLE);
    expect(lines).toEqual(['', 'Cautions', `  ${CAUTIONS.harness}`, `  ${CAUTIONS.tilt}`]);
    expect(layCautions([], PLAIN_STYLE)).toEqual([]);
  });

  // Domain rules, section 9: advice that sends someone into a cabinet carries its cautions wherever it is shown.
  it('are never missing where an advice is shown, in text and JSON, and never in the advice itself', () => {
    const fault = checkCapture('a.dex', buildCapture([...GOOD_SEGMENTS, 'EA2*EJL*3*3*1']));
    const report = new ChecksReport(PLAIN_STYLE, true);
    report.add(fault);
    const text = report.lay([]).join(' ').replaceAll(/\s+/g, ' ');
    expect(text).toContain('Do: Have this fault looked at before you leave, or report it.');
    const words = sayCautions(['harness', 'inside', 'tilt', 'food']);
    for (const caution of words) expect(text.split(caution)).toHaveLength(2);
    const [finding] = checkToJson(fault).findings;
    expect(finding).toMatchObject({
      code: 'event-active',
      advice: 'Have this fault looked at before you leave, or report it.',
      cautions: words,
    });
  });

  it('of findings that belong to no capture are shown with theirs', () => {
    const general = makeFinding('price-off-plan', 'Off plan.', adviseAtCabinet('Set the price.'));
    expect(new ChecksReport(PLAIN_STYLE, true).lay([general]).join('\n')).toContain(CAUTIONS.tilt);
  });
});
