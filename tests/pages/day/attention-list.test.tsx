import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import { AttentionList } from '../../../src/pages/day/attention-list.js';
import { makeSite, renderPart } from '../../../src/pages/index.js';
import { attentionItem } from '../support/day-given.js';
import { textOf } from '../support/look-at-page.js';

const site = makeSite({ day: '2026-11-23' });

describe('the list of what to look at', () => {
  it('goes on counting where an earlier part ended', () => {
    const html = renderPart(<AttentionList items={[attentionItem()]} start={61} site={site} level={2} />);
    expect(html).toContain('<ol class="look" start="61">');
    expect(html).toContain('<h2>');
  });

  it('says that there is nothing', () => {
    expect(textOf(renderPart(<AttentionList items={[]} site={site} level={3} />))).toBe('Nothing to look at.');
  });

  it('shows the worst of many findings, and how many there are', () => {
    const findings = ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((name) => makeFinding('clock-wrong', `Clock ${name}.`));
    const item = attentionItem({ machine: null, location: 'Yard', findings });
    const text = textOf(renderPart(<AttentionList items={[item]} site={site} level={3} />));
    expect(text).toContain('No machine, Yard ?doubt');
    expect(text).toContain('What was found (7) ?doubt Clock a.');
    expect(text).toContain('And 2 more findings, none of them worse.');
  });

  it('numbers every caution once, in the order in which they are listed everywhere', () => {
    const items = [attentionItem({ cautions: ['accounts', 'harness'] }), attentionItem({ cautions: ['accounts'] })];
    const text = textOf(renderPart(<AttentionList items={items} site={site} level={3} />));
    expect(text.match(/(\[\d\])+/g)).toEqual(['[2][1]', '[2]']);
  });
});
