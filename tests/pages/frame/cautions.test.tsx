import { describe, expect, it } from 'vitest';
import { CAUTIONS } from '../../../src/findings/index.js';
import { CautionMarks, Cautions, renderPart } from '../../../src/pages/frame/index.js';
import { textOf } from '../support/look-at-page.js';

describe('cautions', () => {
  it('stand once, with numbers by which advice leads to them', () => {
    expect(renderPart(<Cautions cautions={['harness', 'tilt']} />)).toBe(
      `<div class="cautions"><h2 id="cautions">Cautions</h2><ol><li>${CAUTIONS.harness}</li><li>${CAUTIONS.tilt}</li></ol></div>`,
    );
    const marks = renderPart(<CautionMarks own={['tilt', 'harness']} all={['harness', 'tilt']} />);
    expect(textOf(marks)).toBe('[2][1]');
    expect(marks).toContain('href="#cautions" aria-label="Cautions 2, 1"');
  });

  it('are left out where there are none', () => {
    expect(renderPart(<Cautions cautions={[]} />)).toBe('');
    expect(renderPart(<CautionMarks own={[]} all={['harness']} />)).toBe('');
  });
});
