import { describe, expect, it } from 'vitest';
import { CautionMarks, Cautions, renderPart } from '../../../src/pages/frame/index.js';
import { textOf } from '../support/look-at-page.js';

describe('cautions', () => {
  it('stand once, with numbers by which advice leads to them', () => {
    expect(renderPart(<Cautions cautions={['Unplug.', 'Never tilt.']} />)).toBe(
      '<div class="cautions"><h2 id="cautions">Cautions</h2><ol><li>Unplug.</li><li>Never tilt.</li></ol></div>',
    );
    const marks = renderPart(<CautionMarks own={['Never tilt.', 'Unplug.']} all={['Unplug.', 'Never tilt.']} />);
    expect(textOf(marks)).toBe('[2][1]');
    expect(marks).toContain('href="#cautions" aria-label="Cautions 2, 1"');
  });

  it('are left out where there are none', () => {
    expect(renderPart(<Cautions cautions={[]} />)).toBe('');
    expect(renderPart(<CautionMarks own={[]} all={['Unplug.']} />)).toBe('');
  });
});
