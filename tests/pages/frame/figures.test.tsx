import { describe, expect, it } from 'vitest';
import { Absent, Money, Pieces, renderPart, Shown, When } from '../../../src/pages/frame/index.js';
import { HUGE_TEXT } from '../support/hostile.js';

const unit = { currency: 'EUR', decimals: 2 };
const absent =
  '<span class="absent"><span aria-hidden="true">–</span><span class="out-of-sight">not known</span></span>';

describe('figures', () => {
  it('show money with its decimals, its sign and what it is in', () => {
    expect(renderPart(<Money amount={1234} unit={unit} />)).toBe('12.34');
    expect(renderPart(<Money amount={-500} unit={unit} signed withCurrency />)).toBe('−5.00 EUR');
    expect(renderPart(<Money amount={500} unit={unit} signed />)).toBe('+5.00');
    expect(renderPart(<Money amount={0} unit={{ currency: null, decimals: null }} floor withCurrency />)).toBe(
      'at least 0',
    );
  });

  it('lead to where they come from', () => {
    expect(renderPart(<Money amount={1} unit={unit} from="machine-v1.html#cash-bills" />)).toBe(
      '<a href="machine-v1.html#cash-bills">0.01</a>',
    );
    expect(renderPart(<Pieces count={-3} from="#columns-11" />)).toBe('<a href="#columns-11">−3</a>');
  });

  it('never show what is not known as 0, and say so to who listens', () => {
    expect(renderPart(<Money amount={null} unit={unit} from="#x" />)).toBe(absent);
    expect(renderPart(<Pieces count={null} />)).toBe(absent);
    expect(renderPart(<When at={null} />)).toContain('time not known');
    expect(renderPart(<Absent words="not stated" />)).toContain('not stated');
    expect(renderPart(<Pieces count={0} floor />)).toBe('at least 0');
  });

  it('show times for people and for programs', () => {
    expect(renderPart(<When at="2026-11-23T08:05:00" />)).toBe(
      '<time datetime="2026-11-23T08:05:00">2026-11-23 08:05</time>',
    );
  });
});

describe('text from outside', () => {
  it('is escaped, shows what hides, and is cut', () => {
    expect(renderPart(<Shown text={'<b>\u001b[2J\u202e'} />)).toBe('<bdi>&lt;b>\\x1B[2J\\u{202E}</bdi>');
    expect(renderPart(<Shown text={HUGE_TEXT} />).length).toBeLessThan(200);
    expect(renderPart(<Shown text="abcdef" max={3} />)).toBe('<bdi>abc…</bdi>');
  });
});
