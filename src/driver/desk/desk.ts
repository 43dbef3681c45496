import { takeRead } from '../../captures/index.js';
import { type CheckedRead, LastGoodReads } from '../../checks/index.js';
import type { TakenRead } from '../../interval/index.js';
import { machineKey } from '../../model/index.js';
import { findingToJson } from '../../report/index.js';
import { type Capture, type Known, openEach, readEach, writeLocalTime } from './capture.js';
import { describeCapture } from './capture-line.js';
import { type CheckedPart, checkSentFile, type SentFileReading } from './check-sent-file.js';
import { describeBetween, NOTHING_BETWEEN } from './describe-between.js';
import type { BetweenView, CaptureLine, CaptureView, Report, Request, SentFile } from './messages.js';
import { type OfficeBook, readOffice, type UsedSheet } from './office-desk.js';
import { comparePaths } from './order-files.js';
import { sortFiles } from './sort-files.js';
import { compareWithOthers, openCapture } from './view-capture.js';
import { writeCheckLines } from './write-lines.js';

/** What the desk needs of the place it works in. */
export interface DeskSetting {
  readonly tell: (report: Report) => void;
  /** Lets other work of this thread be done; resolves soon. */
  readonly pause: () => Promise<void>;
  /** Milliseconds of a clock that does not go back. */
  readonly now: () => number;
}

/** Among so few captures it is shown at once what happened between them. */
const MOST_COMPARED = 20;
/** So often, in milliseconds, it is told what has been checked. */
const TELL_EVERY = 120;

/** All that a check depends on besides the capture. */
interface Checking extends SentFileReading {
  readonly office: OfficeBook;
  readonly lastGood: LastGoodReads;
}

/** Where files are read and checked, off the page where the browser can. Files stay on the device: this opens them only. */
export class Desk {
  readonly #setting: DeskSetting;
  #run = 0;
  /** What is looked at: what is late of an earlier look is not told. */
  #look = 0;
  #isFileTimeReceived = false;
  #captures: readonly Capture[] = [];
  #sheets: ReadonlyMap<UsedSheet, SentFile> = new Map();
  #unused: readonly SentFile[] = [];
  #office: OfficeBook | null = null;
  /** So many captures, from the first, have been checked. */
  #checkedCount = 0;
  /** Checked, but not told yet. */
  #untold: CaptureLine[] = [];

  constructor(setting: DeskSetting) {
    this.#setting = setting;
  }

  /** Do what the page asks; a defect is told, never thrown. */
  async handle(request: Request): Promise<void> {
    try {
      await this.#handle(request);
    } catch (error) {
      this.#setting.tell({ tell: 'failed', message: error instanceof Error ? error.message : String(error) });
    }
  }

  #handle(request: Request): Promise<void> | void {
    switch (request.ask) {
      case 'take':
        return this.#take(request.files, request.keepsCaptures);
      case 'file-times':
        this.#isFileTimeReceived = request.isReceived;
        return this.#checkAll(++this.#run);
      case 'stop':
        return this.#stop();
      case 'clear':
        return this.#clear();
      case 'show':
        return this.#show(request.id, request.read);
      case 'json':
        return this.#tellJson();
    }
  }

  #clear(): void {
    this.#run++;
    this.#captures = [];
    this.#sheets = new Map();
    this.#unused = [];
    this.#checkedCount = 0;
  }

  /** The work at hand ends; what was checked stays. */
  #stop(): void {
    this.#tellLines(this.#run);
    this.#run++;
    this.#setting.tell({ tell: 'ended', run: this.#run, isStopped: true, between: null });
  }

  async #take(files: readonly SentFile[], keepsCaptures: boolean): Promise<void> {
    const run = ++this.#run;
    const { pause } = this.#setting;
    const sorted = await sortFiles(files, () => run === this.#run, pause);
    if (run !== this.#run) return;
    const before = keepsCaptures || sorted.captures.length === 0 ? this.#captures : [];
    const replaced = [...this.#sheets].filter(([kind]) => sorted.sheets.has(kind)).map(([, sheet]) => sheet);
    this.#sheets = new Map([...this.#sheets, ...sorted.sheets]);
    this.#unused = [...this.#unused, ...replaced, ...sorted.unused];
    const added = sorted.captures.map((sent) => ({ ...sent, parts: [], keys: new Set<string>() }));
    this.#captures = [...before, ...added].sort((a, b) => comparePaths(a.path, b.path));
    await this.#checkAll(run);
  }

  async #checkAll(run: number): Promise<void> {
    const { tell, pause, now } = this.#setting;
    this.#checkedCount = 0;
    const office = await readOffice(this.#sheets);
    if (run !== this.#run) return;
    this.#office = office;
    const unused = this.#unused.map(({ path }) => ({ file: path, kind: null, rows: 0 }));
    const captures = this.#captures;
    tell({ tell: 'sorted', run, total: captures.length, sheets: [...office.sheets, ...unused] });
    tell({ tell: 'general', run, findings: office.findings.map(findingToJson) });
    const lastGood = new LastGoodReads();
    this.#untold = [];
    let toldAt = now();
    const isWanted = (): boolean => run === this.#run;
    for await (const [capture, known] of openEach(captures)) {
      const parts = await this.#check(capture, { office, lastGood, known, isWanted });
      if (!isWanted()) return;
      capture.parts = parts;
      this.#untold.push(describeCapture(this.#checkedCount++, parts));
      if (now() - toldAt > TELL_EVERY) {
        this.#tellLines(run);
        toldAt = now();
      }
      await pause();
      if (!isWanted()) return;
    }
    this.#tellLines(run);
    const between = captures.length > MOST_COMPARED ? null : await this.#compare(captures, office);
    if (run === this.#run) tell({ tell: 'ended', run, isStopped: false, between });
  }

  #tellLines(run: number): void {
    if (this.#untold.length > 0) this.#setting.tell({ tell: 'checked', run, lines: this.#untold });
    this.#untold = [];
  }

  #knownOf({ file }: SentFile, { roster }: OfficeBook): Known {
    return { roster, fileTime: this.#isFileTimeReceived ? writeLocalTime(new Date(file.lastModified)) : null };
  }

  #check(capture: Capture, { office, lastGood, ...reading }: Checking): Promise<readonly CheckedPart[]> {
    const { path, file, keys } = capture;
    const known = this.#knownOf(capture, office);
    keys.clear();
    const keep = ({ read }: CheckedRead): void => {
      const key = machineKey(takeRead(path, read, { ...known, check: () => [] }));
      if (key !== null) keys.add(key);
    };
    return checkSentFile(path, file, { ...known, lastGood }, keep, reading);
  }

  async #compare(captures: readonly Capture[], office: OfficeBook): Promise<BetweenView> {
    const reads: TakenRead[] = [];
    await readEach(captures, (capture, read) => {
      reads.push(takeRead(capture.path, read, this.#knownOf(capture, office)));
    });
    return describeBetween(reads, office.roster);
  }

  /** What stands in the capture is told at once; what happened since the read before takes other files too. */
  async #show(id: number, read: number): Promise<void> {
    const run = this.#run;
    const look = ++this.#look;
    const office = this.#office;
    const capture = this.#captures[id];
    if (office === null || capture === undefined) return;
    const knownOf = (each: Capture): Known => this.#knownOf(each, office);
    const tellView = (view: CaptureView): void => {
      if (run === this.#run && look === this.#look) this.#setting.tell({ tell: 'view', run, view });
    };
    const { view, taken } = await openCapture({ id, capture, read }, knownOf(capture));
    tellView(view);
    const between =
      taken === null ? NOTHING_BETWEEN : await compareWithOthers({ capture }, taken, this.#captures, knownOf);
    tellView({ ...view, between });
  }

  #tellJson(): void {
    const parts = this.#captures.slice(0, this.#checkedCount).flatMap((capture) => capture.parts);
    const text = writeCheckLines(parts, this.#office?.findings ?? []);
    this.#setting.tell({ tell: 'json', run: this.#run, text });
  }
}
