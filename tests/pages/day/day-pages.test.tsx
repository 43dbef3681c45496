import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import {
  byteLength,
  DayDigest,
  type DayPagesGiven,
  LARGEST_PAGE,
  makeDayPages,
  makeSite,
  type PageFile,
  type SettlementLine,
} from '../../../src/pages/index.js';
import { attentionItem, emptyDay, machineLine } from '../support/day-given.js';
import { HOSTILE_TEXTS, HUGE_TEXT } from '../support/hostile.js';
import { expectSoundPage, linksOf, tagsOf, textOf } from '../support/look-at-page.js';

const settlement: SettlementLine = {
  page: 'settlement-r7-eur.html',
  route: 'R7',
  overShort: -500,
  settledVisits: 6,
  openVisits: 2,
  currency: 'EUR',
  decimals: 2,
  closedBy: null,
  isChangedSince: false,
};

function pagesOf(given: Partial<DayPagesGiven>, pagesOfMachines: readonly string[] = ['V1']): PageFile[] {
  const site = makeSite({ day: '2026-11-23' });
  for (const machine of pagesOfMachines) site.machinePages.of(machine);
  const files = makeDayPages({ day: emptyDay(), digest: new DayDigest(), settlements: [], ...given }, site);
  for (const { text } of files) expectSoundPage(text);
  return files;
}

function digestOf(given: Partial<DayDigest>): DayDigest {
  return Object.assign(new DayDigest(), given);
}

describe('the day page', () => {
  it('says of an empty day that there is nothing', () => {
    const [page, ...others] = pagesOf({});
    expect(page!.name).toBe('index.html');
    expect(others).toEqual([]);
    expect(textOf(page!.text)).toContain(
      '0 of 0 machines read. Nothing to look at. To look at, worst first Nothing to',
    );
    expect(textOf(page!.text)).toContain('Routes No route is known. Machines No machine is known.');
  });

  it('begins with what has to be looked at: where, what it may cost, what is wrong, what to do, with the cautions', () => {
    const items = [
      attentionItem({ machine: null, location: null, cautions: [], findings: [], what: 'Something.' }),
      attentionItem(),
      attentionItem({ machine: 'V2', stake: { amount: null, bound: null, perDay: null, how: 'No read.' } }),
    ];
    const day = emptyDay({ attention: items, machines: { expected: 2, read: 1, unknown: 1 } });
    const [page] = pagesOf({ day, digest: digestOf({ machines: [machineLine()] }) });
    const text = textOf(page!.text);
    expect(text).toContain('1 of 2 machines read, and 1 machine that no roster has. 3 things to look at.');
    expect(text).toMatch(
      /No machine \?doubt 0\.60 EUR, and about 0\.17 EUR a day\. So far.* V1, Library \?doubt .*Column 23 is priced/,
    );
    expect(text).toMatch(/Do: Set the price and check the label\. \[2\]\[1\] What was found \(1\)/);
    expect(text).toContain('V2, Library ?doubt Cost not known. No read.');
    expect(text).toMatch(/Cautions Switch off and unplug .* Live mains/);
    expect(text.indexOf('To look at, worst first')).toBeLessThan(text.indexOf('Routes: captures'));
    expect(linksOf(page!.text)).toContain('machine-v1.html');
    expect(linksOf(page!.text)).not.toContain('machine-v2.html');
  });

  it('shows how every machine was read, in words', () => {
    const machines = [
      machineLine(),
      machineLine({ machine: 'V2', reads: 0, sold: null, value: null, lastRead: null, location: null }),
      machineLine({ machine: 'V3', reads: 1, faulty: 1 }),
      machineLine({ machine: 'V4', reads: 3, faulty: 1, isFloor: true }),
      machineLine({ machine: 'V5', isKnown: false, isExpected: false, route: null, reads: 2 }),
      machineLine({ machine: 'V6', isKnown: true, isExpected: false, reads: 0 }),
    ];
    const day = emptyDay({ attention: [attentionItem()] });
    const text = textOf(pagesOf({ day, digest: digestOf({ machines }) })[0]!.text);
    expect(text).toContain(
      'V1 Library R7 =read 2026-11-23 22:00:20 43 55.30 EUR 1 V2 –not stated R7 ×not read –time not',
    );
    expect(text).toContain('V3 Library R7 ×read again');
    expect(text).toMatch(/V4 Library R7 \?read, 1 of 3 faulty 2026-11-23 22:00:20 at least 43 at least 55\.30 EUR 0/);
    expect(text).toContain('V5 Library –not stated =read 2 times, on no roster');
    expect(text).toContain('V6 Library R7 not looked for');
    expect(text).toContain('Machines not read Machine Location Route Driver Last read V2');
    expect(text).toContain('Machines read that no roster has Machine Location Route Driver Last read V5');
  });

  it('shows routes with what they sold and how they were settled', () => {
    const settlements = [
      settlement,
      { ...settlement, route: 'R8', overShort: 250, openVisits: 0, closedBy: 39, isChangedSince: true },
      { ...settlement, route: 'R9', overShort: 0 },
      { ...settlement, route: 'R10', overShort: null, settledVisits: 1 },
      { ...settlement, route: 'R11', settledVisits: 0 },
    ];
    const machines = [
      machineLine(),
      machineLine({ machine: 'V2', sold: null, value: null }),
      machineLine({ route: 'R12' }),
    ];
    const [page] = pagesOf({ settlements, digest: digestOf({ machines }) });
    const text = textOf(page!.text);
    expect(text).toMatch(
      /R7 2 of 2 43 and 1 machine not known 55\.30 EUR 0 5\.00 EUR short on 6 settled visits, 2 visits/,
    );
    expect(text).toContain(
      'visits open ·not closed R8 0 of 0 0 2.50 EUR over on 6 settled visits =closed, entry 39 changed since',
    );
    expect(text).toContain('no difference on 6 settled visits');
    expect(text).toContain('–not known on 1 settled visit');
    expect(text).toContain('nothing settled on 0 settled visits');
    expect(text).toContain('R12 1 of 1 43 55.30 EUR 0 none of this day');
    expect(linksOf(page!.text)).toContain('settlement-r7-eur.html');
  });

  it('says what came in, and what did not', () => {
    const line = (file: string) => [{ file, said: `said of ${file}` }];
    const day = emptyDay({
      files: { files: 9, sound: 3, doubtful: 2, readAgain: 4, setAside: 1, reads: 10, duplicates: 1 },
      totals: [
        { currency: 'EUR', decimals: 2, sold: 300, value: 41690, intervals: 16, openIntervals: 1 },
        { currency: 'JPY', decimals: 0, sold: 2, value: 300, intervals: 1, openIntervals: 0 },
      ],
    });
    const digest = digestOf({
      readAgain: line('again.dex'),
      setAside: line('aside.txt'),
      doubtful: line('doubt.dex'),
      duplicates: line('copy.dex'),
    });
    const text = textOf(pagesOf({ day, digest })[0]!.text);
    expect(text).toContain('Files 9: 3 sound, 2 doubtful, 3 to be read again, 1 set aside');
    expect(text).toContain('10, of which 1 came more than once and count once');
    expect(text).toContain('Sold 300 for 416.90 EUR; what was sold in 1 interval more is not known Sold 2 for 300 JPY');
    for (const list of [
      'Files to be read again File What is said of it again.dex said of again.dex',
      'Files set aside: no capture is in them File What is said of it aside.txt',
      'Files in doubt File What is said of it doubt.dex',
      'Reads that came more than once File What is said of it copy.dex',
    ]) {
      expect(text).toContain(list);
    }
  });
});

describe('hostile text', () => {
  it('shows as text on every part of the page, cut where it is long', () => {
    for (const text of [...HOSTILE_TEXTS, HUGE_TEXT]) {
      const finding = makeFinding('cut-short', text, { file: text, machine: text, advice: text, received: text });
      const items = [
        attentionItem({
          machine: text,
          location: text,
          what: text,
          todo: text,
          stake: { amount: 1, bound: 'exact', perDay: null, how: text },
          findings: Array.from({ length: 50 }, () => finding),
        }),
      ];
      const machines = [
        machineLine({ machine: text, location: text, route: text, driver: text, reads: 0 }),
        machineLine({ machine: `${text}2`, location: text, route: text, isKnown: false }),
      ];
      const lines = [{ file: text, said: text }];
      const digest = digestOf({ machines, readAgain: lines, setAside: lines, doubtful: lines, duplicates: lines });
      const settlements = [{ ...settlement, route: text }];
      const files = pagesOf({ day: emptyDay({ attention: items }), digest, settlements }, [text]);
      for (const { text: html } of files) {
        expect(html).not.toMatch(
          /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u200b]|\p{Surrogate}/u,
        );
        const allowed =
          /^(html|head|meta|title|body|a|nav|ul|li|main|h[1-3]|p|span|bdi|strong|code|ol|details|summary|dl|d[td]|div|table|caption|thead|tbody|tr|t[hd]|time|footer|style)$/;
        expect(tagsOf(html).filter(({ name }) => !allowed.test(name))).toEqual([]);
      }
    }
  });
});

describe('a day of many machines', () => {
  const many = Array.from({ length: 2_000 }, (_, place) => `V${place + 1}`);
  const long = '&"'.repeat(40);

  it('fits 2,000 of them on pages of less than 500 KB, all of them reached, in order', () => {
    const digest = digestOf({
      machines: many.map((machine) =>
        machineLine({ machine, location: long, route: `R${Number(machine.slice(1)) % 90}` }),
      ),
      doubtful: many.map((machine) => ({ file: `${machine}.dex`, said: long.repeat(7) })),
    });
    const day = emptyDay({ attention: many.map((machine) => attentionItem({ machine, what: long })) });
    const files = pagesOf({ day, digest }, many);
    const sizes = files.map(({ text }) => byteLength(text));
    expect(Math.max(...sizes)).toBeLessThanOrEqual(LARGEST_PAGE);
    expect(files.length).toBeLessThan(30);
    const names = files.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toEqual(
      expect.arrayContaining(['index.html', 'attention-2.html', 'machines-2.html', 'doubtful-2.html']),
    );
    for (const link of files.flatMap(({ text }) => linksOf(text))) {
      const [target] = link.split('#');
      if (target !== '' && !target!.startsWith('machine-')) expect(names).toContain(target);
    }
    const listed = (id: string, pattern: RegExp) =>
      files
        .filter(({ name }) => name === 'index.html' || name.startsWith(`${id}-`))
        .flatMap(({ text }) => [...text.matchAll(pattern)].map(([, machine]) => machine));
    expect(listed('attention', /<li><h[23]><a href="[^"]+"><bdi>(V\d+)<\/bdi>/g)).toEqual(many);
    expect(listed('machines', /<th scope="row"><a href="[^"]+"><bdi>(V\d+)<\/bdi>/g)).toEqual(many);
    expect(textOf(files.find(({ name }) => name === 'attention-2.html')!.text)).toMatch(
      /To look at, worst first, part 2 of \d+ V61, /,
    );
  });

  it('keeps the page small too when every text is as long and as hostile as it can be', () => {
    const worst = '\u{e0001}'.repeat(3_000);
    const finding = makeFinding('cut-short', worst, { advice: worst, file: worst });
    const item = attentionItem({ machine: worst, location: worst, what: worst, todo: worst });
    const attention = [1, 2, 3].map(() => ({ ...item, findings: Array.from({ length: 9 }, () => finding) }));
    const machines = many
      .slice(0, 60)
      .map((name) =>
        machineLine({ machine: name + worst, location: worst, route: name + worst, driver: worst, reads: 0 }),
      );
    const lines = many.slice(0, 60).map((name) => ({ file: name + worst, said: worst }));
    const digest = digestOf({ machines, readAgain: lines, setAside: lines, doubtful: lines, duplicates: lines });
    const files = pagesOf({ day: emptyDay({ attention }), digest }, []);
    expect(Math.max(...files.map(({ text }) => byteLength(text)))).toBeLessThanOrEqual(LARGEST_PAGE);
  });
});
