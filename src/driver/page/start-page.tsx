import { render } from 'preact';
import type { Report, SentFile } from '../desk/messages.js';
import { App, type Deeds } from './app.js';
import { collectDropped, nameFiles, takeDrop } from './collect-files.js';
import { type DeskLink, openDesk } from './desk-link.js';
import { saveFile, shareText } from './hand-out.js';
import { offerHomeScreen } from './home-screen.js';
import { writeShareText } from './share-text.js';
import { changeState, EMPTY_STATE, type PageEvent, type PageState } from './state.js';
import { Store } from './store.js';

/** What is on the page: the state, and what only the person sees of it. */
interface Shown {
  readonly state: PageState;
  readonly usesFileTime: boolean;
  readonly notice: string;
}

/** Bring the page to life. `script` is the text of its script, of which the worker is made. */
export async function startPage(script: string): Promise<void> {
  offerHomeScreen(document);
  const page = new Page();
  const desk = await openDesk(script, (report) => page.hear(report));
  document.documentElement.dataset.desk = desk.place;
  page.start(desk);
}

class Page {
  readonly #store = new Store<Shown>({ state: EMPTY_STATE, usesFileTime: false, notice: '' }, () => this.#draw());
  #desk: DeskLink | null = null;
  #deeds: Deeds | null = null;
  /** The capture that was looked at last: the way back to the list leads to it. */
  #lookedAt: number | null = null;

  start(desk: DeskLink): void {
    this.#desk = desk;
    this.#deeds = this.#makeDeeds(desk);
    document.getElementById('page')!.replaceChildren();
    listenForDrops((files) => this.#take(files, false));
    this.#draw();
  }

  /** A report of the desk. */
  hear(report: Report): void {
    if (report.tell === 'json') saveFile('coilbook-check.jsonl', 'application/json', report.text);
    else this.#change(report);
  }

  #change(event: PageEvent): void {
    const before = this.#store.value.state;
    const state = changeState(before, event);
    this.#store.set({ ...this.#store.value, state });
    const hasEnded = state.phase !== before.phase && (state.phase === 'done' || state.phase === 'stopped');
    // A capture that is the only one is shown in full at once.
    if (hasEnded && state.total === 1 && state.lines.length === 1) this.#desk?.ask({ ask: 'show', id: 0, read: 0 });
    // A keyboard or a screen reader goes on where the eyes do: at the answer, or back at the capture in the list.
    if (hasEnded || state.shown !== before.shown)
      queueMicrotask(() => focusOn(state.shown === null ? this.#lookedAt : null));
  }

  #say(notice: string): void {
    this.#store.set({ ...this.#store.value, notice });
  }

  #take(files: readonly SentFile[], keepsCaptures: boolean): void {
    if (files.length === 0) return;
    this.#lookedAt = null;
    this.#say('');
    this.#change({ did: 'take' });
    this.#desk?.ask({ ask: 'take', files, keepsCaptures });
  }

  #makeDeeds(desk: DeskLink): Deeds {
    const clear = (): void => {
      desk.ask({ ask: 'clear' });
      this.#lookedAt = null;
      this.#say('');
      this.#change({ did: 'clear' });
    };
    return {
      takeFiles: (files, keepsCaptures) => this.#take(nameFiles(files), keepsCaptures),
      useFileTime: (usesFileTime) => {
        this.#store.set({ ...this.#store.value, usesFileTime });
        if (this.#store.value.state.total > 0) this.#change({ did: 'take' });
        desk.ask({ ask: 'file-times', isReceived: usesFileTime });
      },
      stop: () => (this.#store.value.state.phase === 'sorting' ? clear() : desk.ask({ ask: 'stop' })),
      clear,
      look: (id) => {
        if (id !== null) {
          this.#lookedAt = id;
          desk.ask({ ask: 'show', id, read: 0 });
        }
        this.#change({ did: 'look', id });
      },
      leaf: (choice, page) => this.#change({ did: 'leaf', choice, page }),
      lookAtRead: (read) => desk.ask({ ask: 'show', id: this.#store.value.state.shown ?? 0, read }),
      share: () =>
        void shareText('coilbook check', writeShareText(this.#store.value.state)).then((notice) => this.#say(notice)),
      saveJson: () => desk.ask({ ask: 'json' }),
      print: () => window.print(),
    };
  }

  #draw(): void {
    if (this.#deeds === null) return;
    render(<App {...this.#store.value} deeds={this.#deeds} />, document.getElementById('page')!);
  }
}

/** Focus a capture of the list, else the answer. */
function focusOn(capture: number | null): void {
  const answer = (): HTMLElement | null => document.getElementById('answer');
  (capture === null ? answer() : (document.getElementById(`capture-${capture}`) ?? answer()))?.focus();
}

function listenForDrops(onFiles: (files: readonly SentFile[]) => void): void {
  const allow = (event: DragEvent): void => {
    event.preventDefault();
    document.documentElement.classList.toggle('dropping', event.type === 'dragover');
  };
  addEventListener('dragover', allow);
  addEventListener('dragleave', allow);
  addEventListener('drop', (event) => {
    allow(event);
    if (event.dataTransfer !== null) void collectDropped(takeDrop(event.dataTransfer)).then(onFiles);
  });
}
