import { type Command, InvalidArgumentError, Option } from 'commander';
import { sayCautions } from '../../language/languages/english/phrases/run-reasons.js';
import { spokenDuration } from '../../language/languages/english/phrases/units.js';
import type { LanguageCode } from '../../language/languages/words.js';
import { atStart } from '../../process/cautions.js';
import type { Heard } from '../../process/desk.js';
import { Sheets } from '../../process/run-state.js';
import type { ProcessSheet } from '../../process/sheet.js';
import type { AttentionMode } from '../../speech/ears/attention.js';
import type { Bench } from '../bench.js';
import type { BenchClock } from '../clock.js';
import { Conversation, isMissedCall } from '../conversation.js';
import { Refusal } from '../exit.js';
import { Leaving, leaves, onSignals } from '../leaving.js';
import { Hushed, LiveConversation, typedLines } from '../live.js';
import { collectGarbage } from '../memory.js';
import { dataDir } from '../paths.js';
import { openConsole } from '../screen-console.js';
import { Screens } from '../screens.js';
import type { Session } from '../session.js';
import { createTimeWatch, readClocks } from '../time-watch.js';

interface RunOptions {
  sheet: string;
  language: LanguageCode;
  data?: string;
  text?: boolean;
  voice?: string;
  mic?: string | false;
  speaker?: string;
  probe?: string;
  attention: AttentionMode;
  plain?: boolean;
  screen?: boolean;
  screenLan?: boolean;
  screenPort: number;
}

/** With the cautions of the run that goes on, whatever sheet was asked for. */
const welcome = (sheet: ProcessSheet, asked: ProcessSheet): string[] => [
  'tankside. Type, or speak when I say that I am listening. “help” tells what I understand, “exit” leaves.',
  `${sayCautions(atStart(sheet))} Your local rules decide too.`,
  ...(sheet.id === asked.id
    ? []
    : [`A run with ${sheet.name} goes on and keeps its sheet; ${asked.name} is for the next one.`]),
];

/** The journal's log is folded in so often, and only when no call is due for this long, ms. */
const tidyEveryMs = 60_000;
const quietMs = 5_000;
/** Sleep and a calendar that was set are looked for so often, ms. */
const watchEveryMs = 1_000;

export function registerRun(program: Command): void {
  program
    .command('run', { isDefault: true })
    .description('start the assistant: type at once, speak when a microphone is found')
    .option('--sheet <id>', 'process sheet: an id, or a JSON file of your own', 'ecn2-ferricyanide')
    .option('--data <folder>', 'where the journal is kept')
    .option('--text', 'no voice and no microphone, text only')
    .option('--voice <id>', 'which voice speaks (see tankside doctor)')
    .option(
      '--probe <source>',
      'a thermometer that sends “name temperature” lines: a device or pipe, - for standard input',
    )
    .option(
      '--mic <name>',
      'which microphone listens, by its name or a part of it; remembered (see tankside doctor)',
    )
    .option('--speaker <name>', 'which speaker speaks; remembered')
    .option('--no-mic', 'speak, but do not listen')
    .option('--plain', 'plain lines instead of a screen in the terminal')
    .option('--screen', 'serve a page to look at, for browsers of this computer')
    .option(
      '--screen-lan',
      'serve it to the local network, by HTTPS: for a phone or a screen across the room',
    )
    .option('--screen-port <number>', 'where the page is served', portNumber, 8425)
    .addOption(
      new Option('--language <code>', 'of what is typed, answered and shown; German, de, by typing only')
        .choices(['en', 'de'])
        .default('en'),
    )
    .addOption(
      new Option('--attention <mode>', 'when speech is listened to')
        .choices(['always', 'call-word', 'push-to-talk'])
        .default('always'),
    )
    // what is no command comes here, since this is the one that is meant without a name
    .allowExcessArguments()
    .action(async (options: RunOptions, { args: [word] }: Command) => {
      if (word !== undefined)
        throw new Refusal(`“${word}” is no command of tankside. Add --help to see which there are.`);
      await runAssistant(options);
    });
}

async function runAssistant(given: RunOptions): Promise<void> {
  const { languages } = await import('../../language/languages/index.js');
  const options = { ...given, text: given.text || !languages[given.language].spoken };
  const { createBench, sheetsFor } = await import('../bench.js');
  const { assumedBottles } = await import('../posts.js');
  const { openSession } = await import('../session.js');
  const { openMouth } = await import('../mouth.js');
  const { SpokenSpeech } = await import('../spoken-speech.js');
  const { Ears } = await import('../ears.js');
  const { chooseSound } = await import('../sound-choice.js');
  const { lastNet } = await import('../supervised.js');
  const { pictureFor } = await import('../pictures.js');
  const { whyWithReport } = await import('../why-report.js');
  const { startThermometer } = await import('../thermometer.js');

  const session = openSession(
    dataDir(options.data),
    assumedBottles(sheetsFor(options.sheet)[0]),
    (assumed) => createBench({ sheet: options.sheet, language: options.language, assumed }),
    { said: (sentence) => warn(sentence), progress: (line) => console.log(line) },
  );
  const { bench } = session;
  const terminal = await openConsole({
    plain: options.plain ?? false,
    probeOnInput: options.probe === '-',
    benchMs: () => session.clock.nowMs(),
  });
  const screens = new Screens(session, terminal, dataDir(options.data));
  const paged = (options.screen || options.screenLan) ?? false;
  const takeNetAway = lastNet((sentence) => screens.aside(sentence));
  let ears: InstanceType<typeof Ears> | null = null;
  const sound = options.text
    ? null
    : await chooseSound(dataDir(options.data), {
        microphone: options.mic || undefined,
        speaker: options.speaker,
      });
  const { mouth, notice } = openMouth({
    silent: options.text,
    speaker: sound?.speaker ?? null,
    ...(options.voice ? { voice: options.voice } : {}),
    ...(paged ? { through: await screens.speaker() } : {}),
    onEvent: (event) => {
      if (event.type === 'problem') screens.aside(event.sentence);
      else ears?.mouthEvent(event);
    },
  });
  const speech = new SpokenSpeech(
    mouth,
    (reply) => screens.reply(reply),
    () => session.clock.nowMs(),
  );

  const [asked] = bench.sheets;
  const atWork = new Sheets(bench.sheets).of(session.state.world, asked.id);
  for (const line of [...welcome(atWork, asked), ...(sound?.lines ?? []), notice]) screens.aside(line);
  const missed = catchUp(bench, session);
  const live = new LiveConversation(
    bench,
    {
      journal: screens.journal(session.port),
      speech,
      clock: session.clock,
      why: whyWithReport(session, {
        folder: dataDir(options.data),
        sheet: options.sheet,
        said: (sentence) => screens.aside(sentence),
      }),
      acted: (intent, state) => {
        const picture = pictureFor(intent, state, bench, session.clock.nowMs());
        if (picture) screens.picture(picture.text);
        if (picture?.keep) void screens.keep(picture.keep);
      },
    },
    missed.state,
  );
  const warn = (text: string): void =>
    speech.say({ atMs: session.clock.nowMs(), kind: 'warning', text, desk: 'talk' });
  for (const sentence of [...session.doubts, ...missed.sentences]) {
    warn(sentence);
  }
  live.schedule();
  screens.watch(live);
  if (paged) {
    await screens
      .openPage({ lan: options.screenLan ?? false, port: options.screenPort, warn })
      .catch((error: Error) =>
        screens.aside(`The page is not served: ${error.message}. Try another --screen-port.`),
      );
  }
  const probe = options.probe
    ? startThermometer(options.probe, { bench, live, now: () => session.clock.nowMs(), say: warn })
    : null;

  const listen = !options.text && options.mic !== false;
  if (listen) {
    const { availableRecorders, howToGetRecorder } = await import('../../speech/ears/recorders.js');
    const { microphone } = await import('../../speech/ears/microphone.js');
    const own =
      availableRecorders().length > 0
        ? microphone({
            now: () => performance.now(),
            device: sound?.microphone ?? null,
            ownVoiceAt: (ms) => ears?.ownVoiceAt(ms) ?? false,
          })
        : null;
    if (!own && paged) screens.aside(howToGetRecorder());
    ears = new Ears({
      bench,
      live,
      mode: options.attention,
      dataFolder: dataDir(options.data),
      notice: (s) => screens.aside(s),
      heard: (hearing) => screens.heard(hearing),
      ...(own || paged ? { source: await screens.ears(own) } : {}),
      mouth,
      ask: (text) => speech.say({ atMs: session.clock.nowMs(), kind: 'question', text, desk: 'talk' }),
    });
    void ears.start();
  }
  const tidying = setInterval(() => {
    const due = live.conversation.nextWakeMs();
    if (due === null || due - session.clock.nowMs() > quietMs) session.journal.tidy();
  }, tidyEveryMs).unref();
  const watch = createTimeWatch(watchEveryMs, readClocks());
  const watching = setInterval(() => {
    const happened = watch(readClocks());
    if (!happened) return;
    warn([happened, inBath(bench, live, session.clock)].filter(Boolean).join(' '));
    live.schedule();
  }, watchEveryMs).unref();
  if (listen) void warmGrammars(bench, live);
  terminal.onKey = (key) => ears?.key(key) ?? false;
  screens.onHeld = () => ears?.held();
  const leaving = new Leaving(() => inBath(bench, live, session.clock));
  let over = false;
  /** asked to leave while the last words are being said */
  let hurried = false;
  const leave = (): void => {
    hurried = over;
    over = true;
    terminal.end();
  };
  const askToLeave = (): void => {
    const question = over ? null : leaving.asked();
    if (question === null) leave();
    else warn(question);
  };
  terminal.onLeave = askToLeave;
  const unhook = onSignals({ interrupt: askToLeave, end: leave });
  terminal.onResumed = () => live.schedule();
  await typedLines(
    terminal.lines,
    (line) => {
      if (leaves(line)) return askToLeave();
      leaving.stays();
      if (screens.command(line)) return;
      screens.you(line, null);
      return live.typed(line);
    },
    () => over,
  );

  clearInterval(tidying);
  clearInterval(watching);
  probe?.stop();
  live.stop();
  await ears?.stop();
  if (!options.text && !process.exitCode) await finishSpeaking(() => mouth.speaking && !hurried);
  mouth.close();
  const lost = session.close();
  if (lost) screens.aside(lost);
  screens.close();
  takeNetAway();
  unhook();
}

/** What stands in the tank now, in words, with how many calls are missed: the last of them is called yet. Null when nothing does. */
function inBath({ assistant }: Bench, { conversation }: LiveConversation, clock: BenchClock): string | null {
  if (!conversation.situations().some((s) => s === 'immersed' || s === 'draining')) return null;
  const at = { atMs: clock.nowMs(), wallMs: clock.wallMs() };
  const heard: Heard = { by: 'typed', words: '', confidence: 1, close: [] };
  const intent = { type: 'ask-where' } as const;
  const { replies } = assistant.apply(conversation.state, { type: 'intent', intent, heard, ...at });
  const missed = replies.filter((r) => isMissedCall(r, at.atMs)).length;
  const answers = replies.filter((r) => r.kind !== 'call').map((r) => r.text);
  if (missed > 0) answers.unshift(`${missed === 1 ? 'One call was' : `${missed} calls were`} missed.`);
  return answers.join(' ');
}

async function finishSpeaking(speaking: () => boolean): Promise<void> {
  const until = Date.now() + 15_000;
  while (speaking() && Date.now() < until) await new Promise((r) => setTimeout(r, 50));
}

function portNumber(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new InvalidArgumentError('expected a port number from 0 (any free one) to 65535.');
}

/** Compiles the grammars one by one while nothing else is due, so that no sentence has to wait for its own. */
async function warmGrammars({ language }: Bench, live: LiveConversation): Promise<void> {
  for (const name of ['', ...language.names]) {
    await new Promise((resolve) => setTimeout(resolve, 50).unref());
    await live.clear();
    if (name === '') language.graph(live.conversation.situations());
    else language.byName(name);
  }
  await live.clear();
  collectGarbage();
}

/**
 * After a start in the middle of a run: time has gone on, so the desks meet what was due meanwhile. Missed calls are
 * not spoken one after another; one sentence says what matters now.
 */
function catchUp(bench: Bench, session: Session): { state: Session['state']; sentences: string[] } {
  const { assistant } = bench;
  if (!session.journal.unfinishedRun()) return { state: session.state, sentences: [] };
  const awayS = (session.clock.nowMs() - (session.journal.lastMoment?.atMs ?? 0)) / 1000;
  const hushed = new Hushed();
  const conversation = new Conversation(
    { ...bench, journal: session.port, speech: hushed, clock: session.clock },
    session.state,
  );
  conversation.timePassed();
  const { state } = conversation;
  const heard = { by: 'typed', words: '', confidence: 1, close: [] } satisfies Heard;
  const now = { atMs: session.clock.nowMs(), wallMs: session.clock.wallMs() };
  const where = assistant.apply(state, { type: 'intent', intent: { type: 'ask-where' }, heard, ...now });
  const calls = hushed.replies.filter((r) => r.kind === 'call' || r.kind === 'warning');
  return {
    state,
    sentences: [
      `An unfinished run is here; nothing said was lost. ${where.replies.map((r) => r.text).join(' ')}`,
      ...(calls.length > 0
        ? [`While I was off, up to ${spokenDuration(awayS)}, this was due: ${calls.at(-1)?.text}`]
        : []),
      'Go on where you are, or say close the run.',
    ],
  };
}
