import { describe, expect, it } from 'vitest';
import type { PastStretch } from '../../../src/attention/index.js';
import { makeDay } from '../../../src/day/index.js';
import { makeSite, makeTrendPages, renderPart } from '../../../src/pages/index.js';
import type { Limits } from '../../../src/pages/trend/limits.js';
import type { ColumnTrend } from '../../../src/pages/trend/trend.js';
import { EmptyCharts, RateChart } from '../../../src/pages/trend/trend-charts.js';
import { days } from '../../attention/stretches.js';
import { DayScenario } from '../../day/day-scenario.js';
import { expectSoundPage, tagsOf, textOf } from '../support/look-at-page.js';
import { HOSTILE_NAMES, wideCapture } from '../support/wide-machine.js';

const DAY = '2026-11-21';

function pagesOf(columns: readonly string[], past: readonly PastStretch[] = []): string[] {
  const office = new DayScenario();
  office.addFile('a.dex', wideCapture(20, columns, 10), { day: '2026-11-20' });
  office.addFile('b.dex', wideCapture(21, columns, 13), { day: DAY });
  const inputs = office.inputs(DAY, { past: new Map([['machine M1', past]]) });
  const files = [...makeTrendPages({ inputs, day: makeDay(inputs) }, makeSite({ day: DAY }))];
  for (const { text } of files) expectSoundPage(text);
  return files.map(({ text }) => text);
}

describe('the trend page', () => {
  it('goes on to further parts where it is too long, with every column once', () => {
    const columns = Array.from(
      { length: 1200 },
      (_, place) => `C${place}${HOSTILE_NAMES[place % HOSTILE_NAMES.length]}`,
    );
    const parts = pagesOf(columns, days(...Array.from({ length: 50 }, (_, place) => place)));
    expect(parts.length).toBeGreaterThan(1);
    const words = parts.map(textOf).join(' ');
    expect(words).toContain(`Trend of machine M1: part 2 of ${parts.length}`);
    expect(words).toContain('How columns sell and how long they last, 1 to 60 of 1200');
    for (const place of [0, 59, 60, 777, 999]) expect(words).toMatch(new RegExp(` C${place}\\D`));
    expect(words).not.toMatch(/ C1\d\d\d\D/);
    expect(words).toContain('200 more columns not shown here.');
    expect(parts.join('')).not.toMatch(/<script|\u001b/);
  });

  it('shows the last of very many stretches and sums up all, says what is not known, and what is a floor', () => {
    const past = days(...Array.from({ length: 48 }, () => 7)).map((stretch) => ({
      ...stretch,
      from: stretch.from.replace('2026-1', '2025-1'),
      to: stretch.to.replace('2026-1', '2025-1'),
    }));
    const recent = days(null, 4, ...Array.from({ length: 30 }, () => 2)).map((stretch, place) =>
      place === 1 ? { ...stretch, floor: true } : stretch,
    );
    const [page] = pagesOf(['11'], [...past, ...recent]);
    const words = textOf(page!);
    expect(words).toContain('81 stretches from read to read are known');
    expect(words).toContain('The last 60 are shown.');
    expect(words).toContain('1 d –not known –not known');
    expect(words).toContain('1 d at least 4 at least 4.0');
    expect(words).toContain('Not said: its par is not known');
  });

  it('says so where there is less than a day of history', () => {
    const office = new DayScenario();
    office.addFile('a.dex', wideCapture(21, ['11'], 10, ['EA3*1']), { day: DAY, receivedAt: `${DAY}T15:00:00` });
    office.addFile('b.dex', wideCapture(21, ['11'], 13, ['EA3*2']), { day: DAY, receivedAt: `${DAY}T20:00:00` });
    const inputs = office.inputs(DAY);
    const [page] = [...makeTrendPages({ inputs, day: makeDay(inputs) }, makeSite({ day: DAY }))];
    const words = textOf(page!.text);
    expect(words).toContain('How many it usually sells a day is not known');
  });
});

const column = (name: string, value: number, limits: Limits): ColumnTrend => ({
  column: name,
  product: null,
  sold: null,
  days: null,
  perDay: null,
  par: null,
  left: null,
  empty: { value, limits },
  why: null,
  doubts: [],
});
const countOf = (html: string, name: string): number =>
  tagsOf(html).filter((tag) => tag.name === name && !tag.isClosing).length;

describe('the drawing of when columns are empty', () => {
  it('has a dot at the rate so far, a line over the limits, and an arrow where they go on', () => {
    const near = column('11', 4, { low: 2, high: 9 });
    const html = renderPart(<EmptyCharts columns={[near, column('12', 5, { low: 3, high: null })]} id="e" />);
    expect(countOf(html, 'circle')).toBe(2);
    expect(countOf(html, 'path')).toBe(1);
    const never = column('13', Number.POSITIVE_INFINITY, { low: 3, high: null });
    const far = renderPart(<EmptyCharts columns={[never, column('14', 500, { low: 200, high: 900 })]} id="e" />);
    expect([countOf(far, 'circle'), countOf(far, 'path')]).toEqual([0, 2]);
    expect(far).not.toMatch(/NaN|Infinity/);
  });

  it('breaks a long one into several of the same scale, with ids of their own, and is none for nothing', () => {
    const many = Array.from({ length: 70 }, (_, place) =>
      column(`${place}`, 0.4, { low: 0.2, high: place === 0 ? 50 : 0.9 }),
    );
    const html = renderPart(<EmptyCharts columns={many} id="e" />);
    expect(countOf(html, 'svg')).toBe(3);
    expect(html).toContain('id="e-3-title"');
    const lines = [...html.matchAll(/class="axis" x1="([\d.]+)" x2="([\d.]+)"/g)].map(([, x1, x2]) => `${x1} ${x2}`);
    expect(new Set(lines).size).toBe(2);
    expect(renderPart(<EmptyCharts columns={[{ ...many[0]!, empty: null }]} id="e" />)).toBe('');
  });

  it('has fractions of days where all is soon', () => {
    const soon = renderPart(<EmptyCharts columns={[column('11', 0.4, { low: 0.2, high: 0.9 })]} id="e" />);
    expect(soon).toContain('>0.2<');
  });
});

describe('the drawing of sales', () => {
  it('has a block for each stretch that is known, a broken line for one that is not, and another look for a floor', () => {
    const [known, unknown, floor] = days(4, null, 3);
    const html = renderPart(<RateChart stretches={[known!, unknown!, { ...floor!, floor: true }]} perDay={null} />);
    expect(html.split('class="shape-1 step"').length - 1).toBe(1);
    expect(html.split('class="axis gap"').length - 1).toBe(1);
    expect(html.split('class="flow-unexplained"').length - 1).toBe(1);
    expect(html).toContain('The usual number a day is not known.');
    expect(html).not.toMatch(/NaN|Infinity/);
  });
});
