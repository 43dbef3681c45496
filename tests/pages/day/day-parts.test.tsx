import { describe, expect, it } from 'vitest';
import { CAUTIONS } from '../../../src/findings/index.js';
import { CameInFacts, listWhatCameIn } from '../../../src/pages/day/came-in.js';
import { writeHeadline } from '../../../src/pages/day/headline.js';
import { MachineLink, MachinesTable, MaybeShown } from '../../../src/pages/day/machines-table.js';
import { partList } from '../../../src/pages/day/parted-list.js';
import { RoutesTable } from '../../../src/pages/day/routes-table.js';
import { DayDigest, makeSite, renderPart } from '../../../src/pages/index.js';
import { emptyDay, machineLine } from '../support/day-given.js';
import { expectSoundPage, linksOf, textOf } from '../support/look-at-page.js';

const site = makeSite({ day: '2026-11-23' });
site.machinePages.of('V1');

describe('the headline of a day', () => {
  it.each([
    [{ expected: 1, read: 1, unknown: 0 }, '1 of 1 machine read. Nothing to look at.'],
    [
      { expected: 8, read: 7, unknown: 2 },
      '7 of 8 machines read, and 2 machines that no roster has. Nothing to look at.',
    ],
  ])('counts machines', (machines, words) => {
    expect(writeHeadline(emptyDay({ machines }))).toBe(words);
  });
});

describe('a list in parts', () => {
  const given = {
    id: 'things',
    title: 'Things',
    items: ['a', 'b', 'c'],
    showOne: (item: string) => <li>{item}</li>,
    show: (items: readonly string[], start: number, caption: string) => (
      <p>
        {caption}: {items.join(' ')} from {start}
      </p>
    ),
  };

  it('says on every part which it is, and leads to the others', () => {
    const { first, firstItems, files } = partList({ ...given, first: { bytes: 9_999, items: 2 } }, site);
    expect(firstItems).toEqual(['a', 'b']);
    expect(textOf(renderPart(first))).toBe('Things, 1 to 2 of 3: a b from 0 Things: part 1 of 2 Part 1 Part 2');
    expect(files.map(({ name }) => name)).toEqual(['things-2.html']);
    expect(textOf(files[0]!.text)).toContain('Things, part 2 of 2 Things, 3 to 3 of 3: c from 2');
    const hasAnchor = files[0]!.text.replaceAll('index.html#things', 'index.html');
    expectSoundPage(hasAnchor);
    expect(linksOf(files[0]!.text)).toContain('index.html#things');
  });

  it('of one part says nothing of parts, and has the cautions of its own items on further ones', () => {
    const whole = partList({ ...given, first: { bytes: 9_999 } }, site);
    expect(textOf(renderPart(whole.first))).toBe('Things: a b c from 0');
    const cautionsOf = (items: readonly string[]) => items.map((item) => (item === 'b' ? 'tilt' : 'harness'));
    const { files } = partList({ ...given, cautionsOf, first: { bytes: 9_999, items: 1 } }, site);
    expect(textOf(files[0]!.text)).toContain(`Cautions ${CAUTIONS.tilt} ${CAUTIONS.harness}`);
  });
});

describe('tables of the day', () => {
  it('link only to machines that have a page', () => {
    expect(renderPart(<MachineLink machine="V1" site={site} />)).toBe('<a href="machine-v1.html"><bdi>V1</bdi></a>');
    expect(renderPart(<MachineLink machine="V2" site={site} />)).toBe('<bdi>V2</bdi>');
    expect(textOf(renderPart(<MaybeShown text={null} />))).toBe('–not stated');
  });

  it('count what there is to look at, machine by machine', () => {
    const things = new Map([['V1', 3]]);
    const html = renderPart(
      <MachinesTable machines={[machineLine()]} caption="Machines" site={site} things={things} />,
    );
    expect(textOf(html)).toMatch(/55\.30 EUR 3$/);
  });

  it('say where machines are on no route', () => {
    const route = { route: null, expected: 1, read: 1, sums: [], toLookAt: 0, settlements: [] };
    expect(textOf(renderPart(<RoutesTable routes={[route]} caption="Routes" />))).toContain(
      'No route 1 of 1 0 none of',
    );
  });
});

describe('what came in', () => {
  it('has a list only of what there is', () => {
    expect(listWhatCameIn(new DayDigest(), site)).toEqual([]);
    const digest = Object.assign(new DayDigest(), { setAside: [{ file: 'a.txt', said: 'No capture.' }] });
    expect(listWhatCameIn(digest, site).map(({ first }) => textOf(renderPart(first)))).toEqual([
      'Files set aside: no capture is in them File What is said of it a.txt No capture.',
    ]);
  });

  it('says that what was sold is not known, never that it was nothing', () => {
    const totals = [{ currency: 'EUR', decimals: 2, sold: null, value: null, intervals: 2, openIntervals: 2 }];
    expect(textOf(renderPart(<CameInFacts day={emptyDay({ totals })} />))).toMatch(
      /Sold –not known for –not known; what was sold in 2 intervals more is not known$/,
    );
  });
});
