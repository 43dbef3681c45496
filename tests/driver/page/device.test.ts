import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Report } from '../../../src/driver/desk/messages.js';
import { collectDropped, type DroppedEntry, nameFiles, takeDrop } from '../../../src/driver/page/collect-files.js';
import { openDesk, openDeskInPage } from '../../../src/driver/page/desk-link.js';
import { saveFile, shareText } from '../../../src/driver/page/hand-out.js';
import { offerHomeScreen, writeManifest } from '../../../src/driver/page/home-screen.js';
import { buildCapture } from '../../support/build-capture.js';

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

const file = (name: string): File => new File(['x'], name);
const fileEntry = (name: string, isReadable = true): DroppedEntry => ({
  isDirectory: false,
  name,
  file: (take, fail) => (isReadable ? take(file(name)) : fail()),
});
function folderEntry(name: string, ...portions: readonly (readonly DroppedEntry[])[]): DroppedEntry {
  const left = [...portions];
  return { isDirectory: true, name, createReader: () => ({ readEntries: (take) => take(left.shift() ?? []) }) };
}

describe('files as they come', () => {
  it('carry the folder they lay in where the browser tells it', () => {
    const inFolder = file('b.dex');
    Object.defineProperty(inFolder, 'webkitRelativePath', { value: 'day/b.dex' });
    expect(nameFiles([file('a.dex'), inFolder]).map(({ path }) => path)).toEqual(['a.dex', 'day/b.dex']);
  });

  it('are taken from a drop at once: a plain list, or entries where there are folders', () => {
    const item = (entry: DroppedEntry | null) => ({ webkitGetAsEntry: () => entry });
    const take = (...items: readonly object[]) =>
      takeDrop({ items, files: [file('a.dex')] } as unknown as DataTransfer).entries.map(({ name }) => name);
    expect(take(item(fileEntry('a.dex')), {})).toEqual([]);
    expect(take(item(fileEntry('a.dex')), item(folderEntry('day')), item(null))).toEqual(['a.dex', 'day']);
  });

  it('are found in folders however deep, and by portions; what can not be read is left out', async () => {
    const deep = folderEntry('deep', [fileEntry('c.dex')]);
    const day = folderEntry('day', [fileEntry('b.dex'), fileEntry('gone.dex', false)], [deep]);
    const bare: DroppedEntry = { isDirectory: true, name: 'bare' };
    const locked: DroppedEntry = {
      isDirectory: true,
      name: 'locked',
      createReader: () => ({ readEntries: (_, fail) => fail() }),
    };
    const entries = [fileEntry('a.dex'), day, bare, locked, { isDirectory: false, name: 'odd' }];
    const found = await collectDropped({ entries, files: [] });
    expect(found.map(({ path }) => path)).toEqual(['a.dex', 'day/b.dex', 'day/deep/c.dex']);
    expect((await collectDropped({ entries: [], files: [file('z.dex')] })).map(({ path }) => path)).toEqual(['z.dex']);
  });
});

describe('writeManifest', () => {
  it('names the page as a web server gives it, without what stands behind a question mark', () => {
    const manifest = writeManifest('https://example.invalid/tools/check.html?x#y', 'data:icon')!;
    expect(JSON.parse(decodeURIComponent(manifest.slice(manifest.indexOf(',') + 1)))).toMatchObject({
      start_url: 'https://example.invalid/tools/check.html',
      display: 'standalone',
      icons: [{ src: 'data:icon' }],
    });
  });

  it('is none for a page from disk', () => {
    expect(writeManifest('file:///home/check.html', '')).toBeNull();
  });

  it('is put into the page only where there is one', () => {
    const added: unknown[] = [];
    const page = (href: string, icon: object | null) =>
      ({
        location: { href },
        querySelector: () => icon,
        createElement: () => ({}),
        head: { append: (element: unknown) => added.push(element) },
      }) as unknown as Document;
    offerHomeScreen(page('file:///check.html', null));
    expect(added).toEqual([]);
    offerHomeScreen(page('http://127.0.0.1/check.html', { getAttribute: () => 'data:i' }));
    expect(added).toEqual([{ rel: 'manifest', href: expect.stringMatching(/^data:application\/manifest\+json,/) }]);
  });
});

describe('shareText', () => {
  const abort = Object.assign(new DOMException('no', 'AbortError'));
  const clipboard = (works: boolean) => ({
    writeText: () => (works ? Promise.resolve() : Promise.reject(new Error('no'))),
  });

  it('shares where the device can, and says nothing where the person thinks better of it', async () => {
    const shared: unknown[] = [];
    vi.stubGlobal('navigator', { share: async (what: unknown) => void shared.push(what) });
    expect(await shareText('t', 'x')).toBe('Shared.');
    expect(shared).toEqual([{ title: 't', text: 'x' }]);
    vi.stubGlobal('navigator', { share: () => Promise.reject(abort) });
    expect(await shareText('t', 'x')).toBe('');
  });

  it('copies where it can not be shared, and where that fails in the old way', async () => {
    vi.stubGlobal('navigator', { share: () => Promise.reject(new Error('no')), clipboard: clipboard(true) });
    expect(await shareText('t', 'x')).toContain('Copied');
    vi.stubGlobal('navigator', { clipboard: clipboard(false) });
    for (const [works, says] of [
      [true, 'Copied'],
      [false, 'neither'],
    ] as const) {
      const field = { value: '', setAttribute: () => undefined, select: () => undefined, remove: () => undefined };
      vi.stubGlobal('document', {
        createElement: () => field,
        body: { append: () => undefined },
        execCommand: () => works,
      });
      expect(await shareText('t', 'x')).toContain(says);
      expect(field.value).toBe('x');
    }
  });
});

describe('saveFile', () => {
  it('saves the text under its name, and lets the browser forget it later', () => {
    vi.useFakeTimers();
    const link = { href: '', download: '', click: vi.fn() };
    vi.stubGlobal('document', { createElement: () => link });
    const revoke = vi.spyOn(URL, 'revokeObjectURL');
    saveFile('a.jsonl', 'application/json', '{}\n');
    expect([link.download, link.click.mock.calls.length, revoke.mock.calls.length]).toEqual(['a.jsonl', 1, 0]);
    expect(link.href).toMatch(/^blob:/);
    vi.runAllTimers();
    expect(revoke).toHaveBeenCalledWith(link.href);
  });
});

describe('openDesk', () => {
  /** A worker that does at its start what it is told to. */
  const stubWorker = (start: (worker: Worker) => void): { terminated: number; posted: unknown[] } => {
    const seen = { terminated: 0, posted: [] as unknown[] };
    vi.stubGlobal(
      'Worker',
      class {
        onmessage: ((event: MessageEvent<Report>) => void) | null = null;
        onerror: ((event: ErrorEvent) => void) | null = null;
        constructor() {
          queueMicrotask(() => start(this as unknown as Worker));
        }
        terminate = (): void => void seen.terminated++;
        postMessage = (message: unknown): void => void seen.posted.push(message);
      },
    );
    return seen;
  };
  const ready = { data: { tell: 'ready' } } as MessageEvent;

  it('works in a worker where one starts, and says when it fails later', async () => {
    const told: Report[] = [];
    let worker: Worker | null = null;
    const seen = stubWorker((started) => {
      worker = started;
      started.onmessage?.(ready);
    });
    const desk = await openDesk('', (report) => told.push(report));
    desk.ask({ ask: 'stop' });
    expect([desk.place, seen.posted]).toEqual(['worker', [{ ask: 'stop' }]]);
    worker!.onmessage?.({ data: { tell: 'json', run: 1, text: '' } } as MessageEvent);
    worker!.onerror?.({ message: 'broken' } as ErrorEvent);
    expect(told).toEqual([
      { tell: 'json', run: 1, text: '' },
      { tell: 'failed', message: 'broken' },
    ]);
  });

  it('works within the page where none can be made, none starts or none answers', async () => {
    expect((await openDesk('', () => undefined)).place).toBe('page');
    const seen = stubWorker((worker) => worker.onerror?.({ preventDefault: () => undefined } as ErrorEvent));
    expect((await openDesk('', () => undefined)).place).toBe('page');
    expect(seen.terminated).toBe(1);
    vi.useFakeTimers();
    stubWorker(() => undefined);
    const desk = openDesk('', () => undefined);
    await vi.runAllTimersAsync();
    expect((await desk).place).toBe('page');
  });

  it('lets the page do other work in between', async () => {
    const bytes = buildCapture(['ID1*S1*M1****A1', 'VA1*100*1']);
    const files = Array.from({ length: 300 }, (_, i) => ({ path: `${i}`, file: new File([bytes.slice()], `${i}`) }));
    let turns = 0;
    const timer = setInterval(() => turns++, 0);
    await new Promise<void>((done) => {
      const desk = openDeskInPage(({ tell }) => tell === 'ended' && done());
      // A slow device: the clock shows more than a slice from one look to the next.
      let now = 0;
      vi.stubGlobal('performance', { now: () => (now += 20) });
      desk.ask({ ask: 'take', files, keepsCaptures: false });
    });
    clearInterval(timer);
    expect(turns).toBeGreaterThan(10);
  });
});
