import type { ScreenLine, ScreenView } from '../view.js';
import { byId, drawClock, drawLines, drawView, make, watchRoom } from './draw.js';
import { Link } from './link.js';
import { Microphone, Speaker } from './sound.js';

let view: ScreenView | null = null;
let timer: ReturnType<typeof setTimeout> | undefined;

const link = new Link({
  joined(name) {
    show('stand');
    byId('name').textContent = `This is ${name}.`;
    status('');
    // the computer knows nothing yet of what was on before the connection was lost
    if (speaking) link.send({ type: 'speaker', on: true });
    if (listening) link.send({ type: 'microphone', on: true, hold: false });
  },
  stranger() {
    document.body.dataset.stale = 'no';
    show('pairing');
    const code = location.hash.replace(/\D/g, '');
    if (code !== '') void pair(code);
    else byId<HTMLInputElement>('code').focus();
  },
  stale(seconds) {
    if (document.body.dataset.state === 'starting') show('gone');
    document.body.dataset.stale = seconds === null ? 'no' : 'yes';
    status(
      seconds === null
        ? ''
        : `No word from the computer for ${seconds} s.${view ? ' The digits go on by what was last known.' : ''}`,
    );
  },
  sound(header, samples) {
    if (speaking && speaker.play(samples, header.rate)) link.send({ type: 'playing', id: header.id });
  },
  message(message) {
    switch (message.type) {
      case 'view':
        view = message.view;
        drawView(view);
        drawOffers(view);
        tick();
        return;
      case 'beat':
        return tick();
      case 'lines':
        return take(message.lines);
      case 'level':
        return drawLevel(message.db);
      case 'microphone':
        return drawEars(message.you, message.screen);
      case 'hush':
        return speaker.hush();
      case 'refused':
        return tell(message.why);
      case 'bye':
        status(message.why);
        link.stop();
        show('pairing');
        return;
      case 'sound':
        return;
    }
  },
});

const parts = ['gone', 'pairing', 'stand'] as const;
function show(part: (typeof parts)[number]): void {
  document.body.dataset.state = part;
  for (const one of parts) byId(one).hidden = one !== part;
}

function status(text: string): void {
  if (byId('link').textContent !== text) byId('link').textContent = text;
}

/** For a screen reader, and for eyes in the status line. */
function tell(text: string): void {
  status(text);
  setTimeout(() => {
    if (byId('link').textContent === text) status('');
  }, 6_000);
}

/** Draws the clock and sleeps until its digits change. */
function tick(): void {
  clearTimeout(timer);
  const benchMs = link.benchMs;
  if (!view || benchMs === null) return;
  const changesMs = drawClock(view, benchMs);
  if (changesMs !== null) timer = setTimeout(tick, Math.max(4, changesMs - benchMs + 2));
}

// --- pairing

async function pair(code: string): Promise<void> {
  history.replaceState(null, '', '/');
  const answer = await fetch('/pair', { method: 'POST', body: code }).catch(() => null);
  if (answer?.ok) {
    byId('pair-problem').textContent = '';
    return link.open();
  }
  const { waitS } = ((await answer?.json().catch(() => null)) ?? {}) as { waitS?: number };
  byId('pair-problem').textContent = !answer
    ? 'The computer did not answer.'
    : answer.status === 429
      ? `Too many tries. Wait ${waitS ?? 30} seconds, then use the new code.`
      : 'That is not the code that the computer shows now.';
  byId<HTMLInputElement>('code').focus();
}

byId<HTMLFormElement>('pair').addEventListener('submit', (event) => {
  event.preventDefault();
  void pair(byId<HTMLInputElement>('code').value);
});
byId('leave').addEventListener('click', async () => {
  await fetch('/leave', { method: 'POST' }).catch(() => null);
});

// --- words

/** Lines that a person should notice without looking. */
function take(lines: readonly ScreenLine[]): void {
  const first = byId('lines').childElementCount === 0;
  drawLines(lines, lines.length > 1);
  const newest = lines.at(-1);
  if (first || lines.length > 1 || !newest) return;
  if (newest.kind === 'call' || newest.kind === 'answer') byId('calls').textContent = newest.text;
  if (newest.kind === 'call') navigator.vibrate?.([350]);
  if (newest.kind === 'warning') navigator.vibrate?.([200, 100, 200, 100, 500]);
}

function drawOffers({ offers, moment }: ScreenView): void {
  const box = byId('offers');
  const key = moment + JSON.stringify(offers);
  if (box.dataset.key === key) return;
  const focused = box.contains(document.activeElement);
  box.dataset.key = key;
  box.replaceChildren(
    ...offers.map((offer) => {
      const button = make('button', offer.first ? 'first' : '', offer.label) as HTMLButtonElement;
      button.type = 'button';
      button.addEventListener('click', () => {
        if (!link.send({ type: 'say', words: offer.words, moment }))
          tell('Not sent: the computer cannot be reached.');
      });
      return button;
    }),
  );
  if (focused) box.focus();
}

byId<HTMLFormElement>('type').addEventListener('submit', (event) => {
  event.preventDefault();
  const input = byId<HTMLInputElement>('words');
  if (input.value.trim() === '') return;
  if (link.send({ type: 'say', words: input.value, moment: null })) input.value = '';
  else tell('Not sent: the computer cannot be reached.');
});

// --- microphone and sound

let listening = false;
let holding = false;
let speaking = false;
const microphone = new Microphone((samples) => link.sendSound(samples));
const speaker = new Speaker();

/** The last words need a moment to leave the microphone. */
const tailMs = 250;

async function hold(down: boolean): Promise<void> {
  if (down === holding) return;
  holding = down;
  byId('hold').classList.toggle('down', down);
  byId('hold').textContent = down ? 'Speak now' : 'Hold to talk';
  if (!down) {
    if (listening) return;
    setTimeout(() => {
      if (holding) return;
      microphone.on = false;
      link.send({ type: 'microphone', on: false, hold: true });
    }, tailMs);
    return;
  }
  const problem = await microphone.open();
  if (problem) {
    void hold(false);
    return tell(problem);
  }
  if (!holding) return;
  link.send({ type: 'microphone', on: true, hold: true });
  microphone.on = true;
}

const pad = byId('hold');
pad.addEventListener('pointerdown', (event) => {
  pad.setPointerCapture(event.pointerId);
  void hold(true);
});
for (const end of ['pointerup', 'pointercancel', 'blur']) pad.addEventListener(end, () => void hold(false));
pad.addEventListener('contextmenu', (event) => event.preventDefault());
pad.addEventListener('keydown', (event) => {
  if ((event.key === ' ' || event.key === 'Enter') && !event.repeat) {
    event.preventDefault();
    void hold(true);
  }
});
pad.addEventListener('keyup', (event) => {
  if (event.key === ' ' || event.key === 'Enter') void hold(false);
});

byId('listen').addEventListener('click', async () => {
  const on = !listening;
  if (on) {
    const problem = await microphone.open();
    if (problem) return tell(problem);
  }
  setListening(on);
  link.send({ type: 'microphone', on, hold: false });
});

function setListening(on: boolean): void {
  listening = on;
  microphone.on = on || holding;
  byId('listen').setAttribute('aria-pressed', String(on));
  if (!on && !holding) microphone.close();
}

byId('speaker').addEventListener('click', async () => {
  speaking = !speaking;
  if (speaking) await speaker.open();
  else speaker.close();
  byId('speaker').setAttribute('aria-pressed', String(speaking));
  link.send({ type: 'speaker', on: speaking });
});

function drawEars(you: boolean, screen: string | null): void {
  byId('ears').textContent = you
    ? 'This screen is the microphone.'
    : screen === null
      ? 'The computer listens, if it has a microphone.'
      : `The microphone is ${screen}.`;
  // somebody else took it
  if (listening && !you && screen !== null) setListening(false);
}

function drawLevel(db: number): void {
  const bars = Math.max(0, Math.min(10, Math.round((db + 60) / 5)));
  byId('hold').style.setProperty(
    'box-shadow',
    bars === 0 ? 'none' : `inset 0 -${bars * 0.25}rem 0 0 var(--liquid)`,
  );
}

// --- night, black, awake

function night(on: boolean): void {
  document.documentElement.dataset.night = on ? 'on' : 'off';
  byId('night').setAttribute('aria-pressed', String(on));
  byId('night-caution').hidden = !on;
  localStorage.setItem('night', on ? 'on' : 'off');
  drawPicture();
}
byId('night').addEventListener('click', () => night(document.documentElement.dataset.night !== 'on'));

const dark = byId<HTMLDialogElement>('dark');
byId('go-dark').addEventListener('click', () => dark.showModal());
dark.addEventListener('click', () => dark.close());

let awake: WakeLockSentinel | null = null;
async function stayAwake(): Promise<void> {
  if (document.visibilityState !== 'visible' || (awake && !awake.released)) return;
  awake = (await navigator.wakeLock?.request('screen').catch(() => null)) ?? null;
}
document.addEventListener('visibilitychange', () => void stayAwake());
addEventListener('pointerdown', () => void stayAwake(), { passive: true });
void stayAwake();

// --- pictures

let picture: string | null = null;
const pictureWords: Readonly<Record<string, string>> = {
  curves:
    'Temperatures of the baths over time, with the band each is expected in. The list of tank and bottles has the same figures.',
  run: 'The run as a timeline: above as planned, below as it went, with what was noted.',
  bottles: 'What each bottle has done and can still do.',
};
const pictureEveryMs = 10_000;

function drawPicture(): void {
  byId('figure').hidden = picture === null;
  for (const button of byId('choose').querySelectorAll('button'))
    button.setAttribute('aria-pressed', String(button.dataset.picture === picture));
  if (picture === null) return;
  const img = byId<HTMLImageElement>('picture');
  img.alt = pictureWords[picture] ?? '';
  const atNight = document.documentElement.dataset.night === 'on' ? 1 : 0;
  img.src = `/picture/${picture}.svg?night=${atNight}&at=${Math.round(performance.now())}`;
}
byId('choose').addEventListener('click', (event) => {
  const chosen = (event.target as HTMLElement).dataset.picture;
  if (!chosen) return;
  picture = chosen === picture ? null : chosen;
  drawPicture();
});
setInterval(() => {
  if (picture !== null && document.visibilityState === 'visible') drawPicture();
}, pictureEveryMs);

// a browser that does not trust the computer's own certificate keeps no page; then it opens only while the computer is there
void navigator.serviceWorker?.register('/client/keeper.js', { scope: '/', type: 'module' }).catch(() => null);
watchRoom(tick);
night(localStorage.getItem('night') === 'on');
void link.open();
