import { describe, expect, it } from 'vitest';
import { renderPart } from '../../../src/pages/index.js';
import { type Flow, flowCash } from '../../../src/pages/machine/cash-flow.js';
import { CashFlowChart, describeFlow } from '../../../src/pages/machine/cash-flow-chart.js';
import { CashFlowPart } from '../../../src/pages/machine/cash-flow-part.js';
import { intervalOf } from '../../support/interval-cases.js';
import { tagsOf, textOf } from '../support/look-at-page.js';

const unit = { currency: 'EUR', decimals: 2 };
const FROM = ['CA2*90000', 'CA3*****9000*5000*1000*3000', 'CA4***3000*200', 'CA15*2000'];
const flows = (tubes: string): readonly Flow[] =>
  flowCash(
    intervalOf(FROM, ['CA2*90900', 'CA3*****10000*5300*1200*3500', 'CA4***3100*200', ...(tubes === '' ? [] : [tubes])]),
  );

const draw = (flow: Flow): string => renderPart(<CashFlowChart flow={flow} unit={unit} id="f" />);
const countOf = (html: string, look: string): number => html.split(`class="${look}`).length - 1;

describe('the drawing of a flow', () => {
  it('has a ribbon for every amount that flowed, and all in words', () => {
    const html = draw(flows('CA15*2100')[0]!);
    expect(tagsOf(html).filter(({ name, isClosing }) => name === 'path' && !isClosing)).toHaveLength(4);
    expect(html).toContain('aria-labelledby="f-title f-desc"');
    expect(html).toContain(
      'Coming in: Cash in 10.00. Going out: Cash box 3.00, Tubes 2.00, Bill stacker 5.00, Not explained 0.00.',
    );
    expect(html).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('has coins that are gone with a look of their own, and no block at all for an amount of 0', () => {
    const gone = draw(flows('CA15*1950')[1]!);
    expect(countOf(gone, 'flow-unexplained')).toBe(2);
    expect(countOf(draw(flows('CA15*2100')[1]!), 'flow-unexplained')).toBe(0);
    expect(gone).toContain('1.50');
  });

  it('has what is not known empty with a broken edge and in words, never as 0', () => {
    const [, tubes] = flows('');
    const html = draw(tubes!);
    expect(countOf(html, 'flow-unknown')).toBe(3);
    expect(describeFlow(tubes!, unit)).toBe(
      'Coming in: Tubes before 20.00, Cash to tubes 2.00, Filled by hand no counter, Not explained not known. ' +
        'Going out: Change 1.00, Out by hand 0.00, Tubes now not known.',
    );
  });

  it('stands beside a table that says the same, whose figures lead to where they come from', () => {
    const html = renderPart(<CashFlowPart flow={flows('')[1]!} unit={unit} interval={2} level={3} />);
    const text = textOf(html);
    expect(text).toContain('Tubes before in 20.00 Cash to tubes in 2.00 Filled by hand in no counter The machine');
    expect(text).toContain('Tubes now out not known The findings say why.');
    expect(html).toContain('href="#how-interval-2-cash-tubes-from"');
    const unlinked = renderPart(<CashFlowPart flow={flows('')[0]!} unit={unit} interval={1} level={3} />);
    expect(unlinked).toContain('<td class="number">0.00</td>');
  });
});
