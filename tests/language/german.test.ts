import { describe, expect, it } from 'vitest';
import type { Reply } from '../../src/app/assistant.js';
import { createBench } from '../../src/app/bench.js';
import { installedLanguage } from '../../src/app/language.js';
import { runPhrases } from '../../src/language/languages/english/phrases/run.js';
import { reasons } from '../../src/language/languages/english/phrases/run-reasons.js';
import { inGerman } from '../../src/language/languages/german/reasons.js';
import { laufPhrases } from '../../src/language/languages/german/run.js';
import { germanNumber, normaliseGerman } from '../../src/language/languages/german/typed.js';
import { SITUATIONS } from '../../src/language/load.js';
import { screenRows } from '../../src/screen/terminal/layout.js';
import { repliesTo } from '../app/replies-to.js';
import { RunOnClock } from '../screen/run-on-clock.js';

const language = installedLanguage([], 'de');
const meant = (line: string, ...situations: (typeof SITUATIONS)[number][]) => {
  const m = language.typed(line, situations);
  return m.kind === 'understood' ? m.intent : m.kind;
};

const bench = createBench({ sheet: 'ecn2-ferricyanide', language: 'de' });
const play = (lines: readonly string[]): Promise<Reply[]> => repliesTo(bench, lines);

const bath = (name: string, bottle: string, waits: string): string[] => [
  `ich gieße das ${name} aus Flasche ${bottle} ein`,
  `${name} ist drin`,
  waits,
  `${name} zurück in Flasche ${bottle}`,
  'Dose ist leer',
];
const water = (waits: string): string[] => ['Wasser ist drin', waits, 'Dose ist leer'];
/** A run by hand from its beginning to its end, with a refusal, a spill, questions and a slip that is taken back. */
const wholeRun = [
  'hallo',
  'Hilfe',
  'mehr',
  'Lauf beginnen',
  'weiter',
  'der Entwickler hat einundvierzig Komma eins Grad',
  'Fixierbad 38,5',
  'Wasserbad auf 41 Grad gestellt',
  'wann ist alles bereit',
  'weiter',
  'Film ist eingelegt',
  'ich gieße das Bleichbad aus Flasche vier ein',
  'ja',
  'abbrechen',
  ...bath('Vorbad', 'eins', '+12s'),
  ...water('+50s'),
  'ich gieße den Entwickler aus Flasche 2 ein',
  'der Entwickler ist drin',
  '+60s',
  'wie lange noch',
  'was kommt jetzt',
  'wo sind wir',
  'verschüttet',
  'zwanzig Milliliter Entwickler auf den Tisch',
  'alles aufgewischt',
  '+125s',
  'Entwickler zurück in Flasche vier',
  'abbrechen',
  'Entwickler zurück in Flasche zwei',
  'Dose ist leer',
  ...bath('Stoppbad', 'drei', '+32s'),
  ...water('+34s'),
  'wie warm ist das Bleichbad',
  'was ist in Flasche drei',
  ...bath('Bleichbad', 'vier', '+185s'),
  ...water('+64s'),
  'Notiz: die zweite Spule klemmte',
  ...bath('Fixierbad', 'fünf', '+125s'),
  ...water('+125s'),
  ...bath('Schlussbad', 'sechs', '+12s'),
  'Film hängt',
  'Lauf beenden',
];

describe('typed German', () => {
  it('reads numbers in words and in digits, and units', () => {
    for (const [word, n] of [
      ['eins', 1],
      ['zwoelf', 12],
      ['siebzehn', 17],
      ['einundvierzig', 41],
      ['zweihundertfuenfzig', 250],
      ['hundert', 100],
      ['tausendfuenfhundert', 1500],
    ] as const)
      expect(germanNumber(word), word).toBe(n);
    for (const word of ['ein', 'und', 'grad', 'hunderte', 'flasche', 'einhalb'])
      expect(germanNumber(word), word).toBeUndefined();
    expect(normaliseGerman('vierzig Komma fünf Grad')).toBe('forty point five degrees');
    expect(normaliseGerman('40,5 °C')).toBe('forty point five degrees');
    expect(normaliseGerman('noch anderthalb Minuten')).toBe('noch one minutes thirty seconds');
    expect(normaliseGerman('noch eine halbe Minute')).toBe('noch thirty seconds');
  });

  it('means the same as the English sentence', () => {
    expect(meant('Entwickler ist drin', 'pouring')).toEqual({ type: 'bath-in', liquid: 'developer' });
    expect(meant('Entwickler hat vierzig Komma fünf Grad')).toEqual({
      type: 'temperature',
      of: 'developer',
      tempC: 40.5,
    });
    expect(meant('noch 2 Minuten und 10 Sekunden', 'immersed')).toEqual({ type: 'add-time', seconds: 130 });
    expect(meant('ich gieße das Fixierbad in Flasche vier', 'draining')).toMatchObject({
      type: 'pour-back',
      liquid: 'fixer',
      to: { kind: 'bottle', number: 4 },
    });
    expect(meant('in Flasche drei sind 600 ml Fixierbad', 'warming')).toMatchObject({
      type: 'bottle-holds',
      bottle: 3,
      volumeMl: 600,
      liquid: 'fixer',
    });
  });

  it('never takes for a deed what is denied, asked, or said of something else', () => {
    for (const line of [
      'der Entwickler ist nicht drin',
      'der Entwickler ist noch nicht drin',
      'ist der Entwickler drin?',
      'die Dose ist noch nicht leer',
    ])
      for (const s of ['pouring', 'immersed', 'draining'] as const)
        expect(meant(line, s), `${line}, ${s}`).toMatchObject({ type: 'ask-where' });
    for (const line of [
      'ich glaube der Entwickler ist drin',
      'der Hund ist drin',
      'gieß nicht den Entwickler ein',
      'wenn der Entwickler drin ist, gehen wir essen',
      'sie sagt die Dose ist leer',
      'Entwickler ist fast drin',
      'ich habe Kaffee getrunken',
      'mein Bruder brennt eine CD',
    ])
      for (const s of SITUATIONS) expect(meant(line, s), `${line}, ${s}`).toBe('nothing');
  });

  it('leads with the rinsing when somebody is hurt', async () => {
    for (const [line, first] of [
      ['mein Auge brennt', /^Spüle das Auge jetzt mit Wasser/],
      ['Bleichbad ins Auge gespritzt', /^Spüle das Auge jetzt mit Wasser/],
      ['meine Hand brennt', /^Zieh aus, was getränkt ist; wasche die Haut/],
      ['ich habe etwas verschluckt', /^Spüle den Mund aus/],
      ['mir ist schwindlig', /^Jetzt an die frische Luft/],
      ['mir ist Entwickler ins Auge gespritzt', /^Spüle das Auge jetzt mit Wasser/],
      ['mir ist was ins Auge gespritzt', /^Spüle das Auge jetzt mit Wasser/],
      ['geschluckt', /^Spüle den Mund/],
      ['ich habe Säure verschluckt', /^Spüle den Mund/],
      ['mein Kind hat Fixierbad getrunken', /^Spüle den Mund/],
      ['aus Versehen Stoppbad geschluckt', /^Spüle den Mund/],
      ['ich hab was verschluckt', /^Spüle den Mund/],
      ['ich habe Säure auf der Hand', /^Zieh aus, was getränkt ist/],
      ['mir ist schwindelig von den Dämpfen', /frische Luft/],
      ['ich habe Entwickler auf die Hand bekommen', /^Zieh aus, was getränkt ist; wasche die Haut/],
      ['mein Sohn hat Fixierbad getrunken', /^Spüle den Mund aus/],
      ['ich habe die Dämpfe eingeatmet', /^Jetzt an die frische Luft/],
    ] as const) {
      const [reply] = await play([line]);
      expect(reply?.text).toMatch(first);
      expect(reply?.text).toMatch(/Sicherheitsdatenblatt; ruf den Giftnotruf/);
    }
  });

  it('knows in German what hurts somebody, and what stays open', async () => {
    const said = await play([
      'Notfall',
      'Lauf beginnen',
      'der Tank fasst 600',
      'Film ist eingelegt',
      'es stinkt nach Chlor',
      'Fixierer im Auge',
      'es brennt',
      'kann ich aufhören zu spülen',
      'ich bin schwanger',
      'Wasser rein',
      'Wasser ist drin',
      '+50s',
      'leer',
      'Lauf beenden',
      'ja',
    ]);
    expect(said.map((r) => r.text)).toEqual(
      [
        /^Auf der Haut oder im Auge: jetzt mit Wasser spülen.*Wo ist es\?$/,
        /^Lauf begonnen/,
        /^Die Dose fasst 600 Milliliter/,
        /^Film eingelegt/,
        /^Geh jetzt an die frische Luft.*Chlor/,
        /^Spüle das Auge jetzt mit Wasser/,
        /^Spüle das Auge jetzt mit Wasser/,
        /^Spüle weiter, im Ganzen fünfzehn Minuten/,
        /Sicherheitsdatenblatt und Arzt entscheiden/,
        /^Frei: Wasser/,
        /^Wasser ist drin/,
        /^Dose leer/,
        /^Der Lauf ist nicht zu Ende/,
        /Lauf vor seinem Ende beendet.*Jemand war verletzt: Spüle das Auge/,
      ].map((wanted) => expect.stringMatching(wanted)),
    );
    expect(said.map((r) => r.text).join(' ')).not.toMatch(/nicht verstanden|\b(?:the|water|rinse|spill)\b/i);
  });

  it('says whom to call, and to go on rinsing', async () => {
    for (const line of ['ruf einen Arzt', 'wen soll ich anrufen', 'wer hilft mir', 'muss er zum Arzt']) {
      const said = await play(['Säure ins Auge gespritzt', line]);
      expect(said.at(-1)?.text).toMatch(/^Ruf jetzt den Giftnotruf oder den Notruf, und spüle weiter/);
    }
  });

  it('leaves the room for what a bath was wiped up with, or spilled with', async () => {
    for (const line of [
      'ich habe das Bleichbad mit Essig aufgewischt',
      'Fixierbad mit Chlorreiniger weggewischt',
      'ich habe Bleichbad und Stoppbad zusammen verschüttet',
      'Stoppbad und Fixierbad zusammengelaufen',
    ]) {
      const said = await play(['Lauf beginnen', line]);
      expect(said.at(-1)?.text).toMatch(/^Verlass den Raum.*giftiges Gas/);
    }
    const apart = await play(['Lauf beginnen', 'darf ich Bleichbad und Fixierbad mischen']);
    expect(apart.at(-1)?.text).toMatch(/^Halte sie getrennt: sie verderben einander/);
  });

  it('takes back what was cleared, and a bottle or a number that was wrong', async () => {
    const cleared = ['Lauf beginnen', 'weiter', 'Film ist eingelegt', 'ich gieße das Vorbad ein'];
    for (const line of ['nein, halt, nicht gießen', 'nein, noch nicht', 'stopp, noch nicht gegossen']) {
      const said = await play([...cleared, line]);
      expect(said.at(-1)?.text, line).toMatch(/nicht gegossen/);
    }
    const read = await play(['Lauf beginnen', 'weiter', 'Entwickler ist 38', 'nein, 39']);
    expect(read.map((r) => r.text).join(' ')).toMatch(/39,0 Grad/);
    const back = [...cleared, 'Vorbad ist drin', '+12s', 'zurück in Flasche zwei', 'nein, eins'];
    expect((await play(back)).at(-1)?.text).toMatch(/Flasche 1/);
  });

  it('says in German what must not meet, and what has met already', async () => {
    const said = await play([
      'Lauf beginnen',
      'darf ich Fixierbad und Stoppbad zusammenschütten',
      'darf ich Vorbad und Entwickler mischen',
      'ich habe Fixierbad und Stoppbad zusammengegossen',
      'ich habe Säure auf das Bleichbad gegossen',
      'mir ist Pulver ins Gesicht geflogen',
      'meine Tochter hat den Entwickler angefasst',
    ]);
    expect(said.map((r) => r.text)).toEqual(
      [
        /^Lauf begonnen/,
        /giftiges Gas.*Also nein: halte sie getrennt/,
        /keine Erlaubnis: halte sie getrennt/,
        /^Verlass den Raum.*giftiges Gas.*Benutze nichts davon.*Giftnotruf/,
        /^Verlass den Raum.*Flasche 4.*Benutze sie nicht/,
        /^Spüle Gesicht und Augen jetzt mit Wasser/,
        /wasche die Haut jetzt mit Wasser/,
      ].map((wanted) => expect.stringMatching(wanted)),
    );
    expect(
      said
        .slice(1)
        .map((r) => r.text)
        .join(' '),
    ).not.toMatch(/\b(?:the|and|keep|with)\b/i);
  });

  it('takes a whole run through, says it in German, and understands whatever it asks to be said', async () => {
    const replies = await play(wholeRun);
    const texts = replies.map((r) => r.text);
    expect(texts.filter((t) => t.includes('nicht verstanden'))).toEqual([]);
    expect(texts.at(-1)).toBe('Lauf beendet.');
    expect(texts.filter((t) => /^(?:Frei|Nein\.)/.test(t)).length).toBe(14);
    // no English word is left but in the name of the sheet
    const english = texts.filter((t) =>
      /\b(?:the|is|of|to|you|say|bottle|degrees|and|next|with)\b/i.test(
        t.replace('ECN-2 with ferricyanide bleach', ''),
      ),
    );
    expect(english).toEqual([]);
    const asked = new Set(
      texts.flatMap((t) =>
        [...t.matchAll(/\b[Ss]ag: ([^.?]+)[.?]/g)].flatMap(([, all = '']) =>
          all.split(/, oder: |: aus |, oder /).map((s) => s.replace(/^oder: /, '')),
        ),
      ),
    );
    expect(asked.size).toBeGreaterThan(6);
    for (const words of asked)
      expect(
        SITUATIONS.some((s) => meant(words, s) !== 'nothing'),
        words,
      ).toBe(true);
  }, 60_000);

  it('shows a whole run in German, and each button is understood', () => {
    const run = new RunOnClock('ecn2-ferricyanide', 'de');
    const shown = new Set<string>();
    for (const line of wholeRun) {
      const wait = /^\+(\d+)s$/.exec(line);
      if (wait) run.pass(Number(wait[1]));
      else run.say(line);
      const view = run.view();
      const rows = screenRows(
        { view, lines: [], levelDb: null, input: '', back: 0 },
        100,
        40,
        run.clock.nowMs(),
      );
      for (const row of rows) shown.add(row.map((p) => p.text).join(''));
      for (const offer of view.offers) {
        shown.add(offer.label);
        expect(run.bench.language.typed(offer.words, run.conversation.situations()).kind, offer.words).toBe(
          'understood',
        );
      }
      for (const act of view.acts) shown.add(act.words);
    }
    const english = [...shown].filter((t) =>
      /\b(?:the|is|of|to|you|say|bottle|tank|next|with|bath|pour|drain|rinse|read|empty|ready|rest|agitate|wash)\b/i.test(
        t.replace('ECN-2 with ferricyanide bleach', ''),
      ),
    );
    expect(english).toEqual([]);
    expect([...shown].join('\n')).toMatch(/Film im Dunkeln einlegen.*Entwickler abgießen/s);
  });

  it('has German words for all of a run but what is listed here, which is said in English', () => {
    const missing = Object.keys(runPhrases).filter((id) => !(id in laufPhrases));
    // away, contamination, films, swaps, tanks and the like: no sentence that German has leads there
    expect(missing.length, missing.join()).toBeLessThanOrEqual(20);
    for (const id of [
      'clear',
      'ruinous',
      'recoverable',
      'ask',
      'bath-in',
      'drain',
      'spill-open',
      'gas-there',
    ])
      expect(missing).not.toContain(id);
    const unsaid = Object.keys(reasons).filter((id) => !(id in inGerman));
    expect(unsaid.length, unsaid.join()).toBeLessThanOrEqual(3);
  });

  it('understands its own examples', () => {
    for (const situation of SITUATIONS) {
      const { more } = language.help([situation]);
      for (const [, example = ''] of more.matchAll(/„([^“]+)“/g))
        expect(meant(example, situation), `${situation}: ${example}`).not.toBe('nothing');
    }
  });
});
