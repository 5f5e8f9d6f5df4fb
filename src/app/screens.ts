import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DRAWS } from '../language/languages/english/lists.js';
import type { Hearing } from '../language/types.js';
import { makeFolderOf } from '../ledger/folders.js';
import type { DeskEvent } from '../process/desk.js';
import type { Page } from '../screen/server/server.js';
import type { PicturesView, ScreenLine, ScreenView } from '../screen/view.js';
import type { FrameSource } from '../speech/ears/frames.js';
import type { Player } from '../speech/mouth/player.js';
import type { Fact } from '../world/fact.js';
import { vesselKey } from '../world/vessel.js';
import type { Reply } from './assistant.js';
import type { JournalPort } from './conversation.js';
import type { LiveConversation } from './live.js';
import { localDate } from './local-date.js';
import { pageDir } from './paths.js';
import type { ChosenMicrophone } from './screen-microphone.js';
import type { ScreenPlayer } from './screen-player.js';
import { picturesView, type Seen, screenView, type ViewSource } from './screen-view.js';
import type { Session } from './session.js';

/** Where a person sits before the computer: the terminal, or a pipe. */
export interface Console {
  /** what is typed, line by line, until the input ends */
  readonly lines: AsyncIterable<string>;
  /** returns true when the key was for the ears and should not be typed */
  onKey: (key: string) => boolean;
  /** Ctrl-C or Ctrl-D */
  onLeave: () => void;
  /** running again after it was stopped */
  onResumed: () => void;
  line(line: ScreenLine): void;
  /** the standing view, where there is room for one */
  show?(view: ScreenView): void;
  level?(db: number): void;
  /** no more lines are taken */
  end(): void;
  close(): void;
}

/** What was reckoned moves slowly: the view is made anew so often while somebody looks, ms. */
const refreshMs = 5_000;
const linesKept = 60;
const entriesLookedAt = 400;

/** All that shows the assistant: it keeps the conversation's lines and passes one view of the state to every screen. */
export class Screens {
  readonly #session: Session;
  readonly #console: Console;
  readonly #folder: string;
  #live: LiveConversation | null = null;
  #page: Page | null = null;
  #player: ScreenPlayer | null = null;
  #lines: ScreenLine[] = [];
  #seen: Seen = {
    asked: null,
    heard: null,
    ears: { microphone: null, screen: null },
    readBy: {},
  };
  #due = false;
  #refresh: NodeJS.Timeout;
  #microphone: ChosenMicrophone | null = null;
  #said = 0;
  #hasOwn = false;
  #held = false;
  /** sound comes from a talk field that a hand is on */
  onHeld: () => void = () => {};

  constructor(session: Session, console: Console, folder: string) {
    this.#session = session;
    this.#console = console;
    this.#folder = folder;
    this.#seen.readBy = probedBefore(session);
    this.#refresh = setInterval(() => this.changed(), refreshMs).unref();
  }

  /** The conversation that is shown; before it there are only lines. */
  watch(live: LiveConversation): void {
    this.#live = live;
    this.changed();
  }

  reply(reply: Reply): void {
    const asks = reply.kind === 'question' || (reply.kind === 'warning' && reply.desk !== 'talk');
    if (asks) this.#seen.asked = reply.text;
    this.#line(reply.kind, reply.text, { atMs: reply.atMs });
    this.changed();
  }

  aside(text: string): void {
    this.#line('aside', text);
  }

  picture(text: string): void {
    this.#line('picture', text);
  }

  /** Keeps a picture beside the journal, as files. */
  async keep(name: string): Promise<void> {
    // as things are now: the journal may be closed before the picture is drawn
    const view = this.pictures();
    await this.#live?.clear();
    const { keepPicture, pictureSvg } = await import('./screen-pictures.js');
    const svg = await pictureSvg(name, view, false);
    if (svg) this.aside(await keepPicture(this.#folder, name, svg));
  }

  async #draw(what: 'run' | 'bottles'): Promise<void> {
    const { timeline, bottles } = this.pictures();
    const kept = this.keep(what);
    const { bottleRows, timelineRows } = await import('../screen/pictures/rows.js');
    const columns = Math.min(100, (process.stdout.columns ?? 80) - 2);
    if (what === 'bottles') this.picture(bottleRows(bottles, columns));
    else if (timeline) this.picture(timelineRows(timeline, columns));
    else this.aside('No run is on record yet.');
    await kept;
  }

  /** What a person typed or pressed. A plain console has its own typed lines on it already. */
  you(words: string, screen: string | null): void {
    const echoed = screen === null && !this.#console.show;
    this.#line('you', screen === null ? words : `${words} (${screen})`, { onConsole: !echoed });
  }

  heard(hearing: Hearing): void {
    const { best, accepted } = hearing;
    if (!best || best.words === '') return;
    this.#seen.heard = {
      words: best.words,
      confidence: best.confidence,
      understood: accepted,
      atMs: this.#session.clock.nowMs(),
    };
    this.changed();
  }

  /** The journal, so that the screens learn of everything that was written, and a closed run gets its report. */
  journal(port: JournalPort): JournalPort {
    return {
      append: (event, facts, state) => {
        const failed = port.append(event, facts, state);
        if (!failed) this.#written(event, facts);
        return failed;
      },
    };
  }

  /** Asks for the view to be shown anew, once, after what is being done is done. */
  changed(): void {
    if (this.#due || !this.#live) return;
    this.#due = true;
    setImmediate(() => {
      this.#due = false;
      const looked = this.#console.show !== undefined || (this.#page?.screens.length ?? 0) > 0;
      if (!looked) return;
      const view = this.view();
      this.#console.show?.(view);
      this.#page?.show(view);
    });
  }

  view(): ScreenView {
    return screenView(this.#source());
  }

  /** The pictures' view of the run that goes on, or of the last one, or of the one named. */
  pictures(runId?: string): PicturesView {
    const { journal } = this.#session;
    const run =
      runId === undefined
        ? (journal.unfinishedRun() ?? journal.runs({ limit: 1 })[0] ?? null)
        : journal.run(runId);
    const calledMs = run ? journal.calledMs(run.runId, run.endedWallMs ?? Number.MAX_SAFE_INTEGER) : [];
    return picturesView(this.#source(), run, journal.bottles(), calledMs);
  }

  /** Serves the page. `warn` is said aloud. */
  async openPage(options: { lan: boolean; port: number; warn(text: string): void }): Promise<void> {
    const { openPage } = await import('../screen/server/server.js');
    const { pictureSvg } = await import('./screen-pictures.js');
    const { clock } = this.#session;
    this.#page = await openPage({
      lan: options.lan,
      port: options.port,
      site: pageDir,
      folder: this.#folder,
      benchMs: () => clock.nowMs(),
      wallMs: () => clock.wallMs(),
      view: () => this.view(),
      lines: () => this.#lines,
      picture: async (name, night) => {
        await this.#live?.clear();
        return pictureSvg(name, this.pictures(), night);
      },
      say: (words, screen) => {
        this.you(words, screen);
        void this.#live?.typed(words);
      },
      microphone: (screen, held) => {
        this.#held = held;
        this.#microphone?.choose(screen);
        this.#ears(screen);
      },
      heard: (pcm) => {
        if (this.#held) this.onHeld();
        this.#microphone?.heard(pcm);
      },
      playing: (id) => this.#player?.began(id),
      lost: ({ name, microphone, speaker }) => {
        if (microphone || speaker)
          options.warn(
            `I lost ${name}. ${microphone ? 'I listen through this computer now. ' : ''}${speaker ? 'I speak here now.' : ''}`.trim(),
          );
        else this.aside(`${name} is gone.`);
      },
      notice: (sentence) => this.aside(sentence),
    });
    await this.#invite(options.lan);
  }

  /**
   * The words that are for the screens themselves, not for the assistant: “show the run” and “show the bottles” draw
   * pictures here; “screen” lets a browser in, “no screens” shuts all out.
   */
  command(line: string): boolean {
    const page = this.#page;
    const words = line.toLowerCase().replace(/[.!]$/, '').trim();
    const drawn = DRAWS.exec(words)?.[1];
    if (drawn) {
      void this.#draw(drawn === 'bottles' ? 'bottles' : 'run');
      return true;
    }
    if (!page) return false;
    if (words === 'screen') void this.#invite(page.fingerprint !== null);
    else if (words === 'no screens') {
      page.revoke();
      this.aside('All screens are shut out.');
    } else return false;
    return true;
  }

  /** One microphone out of the computer's own and those of the screens. */
  async ears(own: FrameSource | null): Promise<FrameSource> {
    const { ChosenMicrophone } = await import('./screen-microphone.js');
    this.#microphone = new ChosenMicrophone(
      own,
      () => performance.now(),
      (db) => {
        this.#console.level?.(db);
        this.#page?.level(db);
      },
    );
    this.#hasOwn = own !== null;
    this.#ears(null);
    return this.#microphone;
  }

  /** The player to use now, given the computer's own. */
  async speaker(): Promise<(own: Player | null) => Player | null> {
    const { ScreenPlayer } = await import('./screen-player.js');
    return (own) => {
      const page = this.#page;
      if (!page || page.speakers === 0) return own;
      this.#player ??= new ScreenPlayer(page, own);
      return this.#player;
    };
  }

  close(): void {
    clearInterval(this.#refresh);
    this.#page?.close();
    this.#console.close();
  }

  #ears(screen: string | null): void {
    const microphone = screen !== null ? 'screen' : this.#hasOwn ? 'computer' : null;
    this.#seen.ears = { microphone, screen };
    this.changed();
  }

  async #invite(lan: boolean): Promise<void> {
    const page = this.#page;
    if (!page) return;
    this.aside(
      `Screen: open ${page.link} in a browser. The code in it lets in one screen, once: ${spaced(page.code)}.`,
    );
    if (!lan) return;
    const { renderUnicodeCompact } = await import('uqr');
    this.picture(renderUnicodeCompact(page.link, { border: 2 }));
    this.aside(
      `Your phone must be in the same network. Its browser will warn that it does not know this computer's certificate: that is so, because the computer made it for itself. Compare the SHA-256 fingerprint, then go on: ${page.fingerprint}`,
    );
  }

  #source(): ViewSource {
    const live = this.#live;
    if (!live) throw new Error('there is no conversation to show yet');
    const { clock, bench } = this.#session;
    return {
      state: live.conversation.state,
      situations: live.conversation.situations(),
      bench,
      seen: this.#seen,
      atMs: clock.nowMs(),
      wallMs: clock.wallMs(),
    };
  }

  #line(
    kind: ScreenLine['kind'],
    text: string,
    { atMs = this.#session.clock.nowMs(), onConsole = true }: { atMs?: number; onConsole?: boolean } = {},
  ): void {
    const line: ScreenLine = { id: ++this.#said, kind, text, atMs };
    this.#lines = [...this.#lines, line].slice(-linesKept);
    if (onConsole) this.#console.line(line);
    this.#page?.line(line);
  }

  #written(event: DeskEvent, facts: readonly Fact[]): void {
    for (const fact of facts) {
      if (fact.type === 'temperature') {
        const how = event.type === 'fact' ? 'measured' : 'told';
        this.#seen.readBy = { ...this.#seen.readBy, [vesselKey(fact.vessel)]: how };
      }
      if (fact.type === 'run-finished') setImmediate(() => void this.#report(fact.runId));
    }
    this.changed();
  }

  /** Nothing that goes wrong here may reach the run: one sentence says so. */
  async #report(runId: string): Promise<void> {
    const folder = join(this.#folder, 'reports');
    const day = localDate(this.#session.clock.wallMs());
    const path = join(folder, `run-${day}-${runId.replace(/[^A-Za-z0-9-]/g, '')}.html`);
    try {
      // as the run ended: the next one may begin while the pictures are drawn
      const view = this.pictures(runId);
      await this.#live?.clear();
      const { runReport } = await import('../screen/report.js');
      const html = runReport(view);
      makeFolderOf(path);
      writeFileSync(path, html);
      this.aside(`The report of this run, with its pictures, is in ${path}.`);
    } catch (error) {
      this.aside(
        `The report of this run was not written: ${error instanceof Error ? error.message : String(error)}.`,
      );
    }
  }
}

/** After a restart: vessels that a probe read lately. */
function probedBefore({ journal }: Session): Seen['readBy'] {
  const readBy: Record<string, 'measured'> = {};
  for (const { event } of journal.entriesAfter(Math.max(0, journal.lastSeq - entriesLookedAt))) {
    if (event.type === 'fact' && event.fact.type === 'temperature')
      readBy[vesselKey(event.fact.vessel)] = 'measured';
  }
  return readBy;
}

const spaced = (code: string): string => code.replace(/(\d{4})(\d+)/, '$1 $2');
