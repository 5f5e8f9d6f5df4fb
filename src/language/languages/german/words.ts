import type { Situation } from '../../../process/desk.js';
import type { Intent } from '../../../process/intent.js';
import type { ProcessSheet } from '../../../process/sheet.js';
import { helpEntries } from '../../help.js';
import type { Grammars } from '../../load.js';
import { englishWords } from '../english/words.js';
import type { Words } from '../words.js';
import { beschreibe } from './describe.js';
import { OF_ALL, OF_ANOTHER, OF_THE_SPEAKER } from './lists.js';
import { flaschenPhrases, mischPhrases, waermePhrases, weckerPhrases } from './others.js';
import { laufPhrases } from './run.js';
import { bildschirm } from './screen.js';
import { normaliseGerman } from './typed.js';
import { readGerman } from './typing.js';
import { dauer, grad, name, vomNamen } from './units.js';

/** The German words of a message, or the English ones where there are none yet. */
const orEnglish =
  <M extends { id: string }>(german: object, english: (m: M) => string) =>
  (message: M): string => {
    const phrase = (german as Partial<Record<string, (m: M) => string>>)[message.id];
    return phrase ? phrase(message) : english(message);
  };

/** Three things that can be typed now, and as `more` all of them. */
function hilfe(situations: readonly Situation[], grammars: Grammars): { text: string; more: string } {
  const quoted = (all: readonly string[]): string => all.map((x) => `„${x}“`).join(', ');
  const german = (open: readonly Situation[]): string[] =>
    helpEntries(open, grammars)
      .filter((e) => e.rule.locale === 'de')
      .flatMap((e) => e.examples.slice(0, 1));
  const ever = new Set(german(['anytime']));
  const all = german(situations);
  const now = [...all.filter((x) => !ever.has(x)), ...all.filter((x) => ever.has(x))].slice(0, 3);
  return { text: `Du kannst jetzt sagen: ${quoted(now)}. Oder „mehr“.`, more: `${quoted(all)}.` };
}

/** Answers that need no desk. */
function geplauder(intent: Intent, { steps }: ProcessSheet): string | null {
  switch (intent.type) {
    case 'greeting':
      return 'Hallo.';
    case 'thanks':
      return 'Gern.';
    case 'ask-agitation':
      return 'Ich rufe jede Bewegung: am Anfang länger, dann in jedem Abstand. Bis zum Ruf ruhen.';
    case 'ask-disposal':
      return 'Sammle jedes verbrauchte Bad für sich, Säure nie zu Bleichbad oder Fixierbad. Was in den Abfluss darf, bestimmen die örtlichen Regeln.';
    case 'ask-target': {
      const { liquid } = intent;
      if (liquid === undefined || intent.tempC !== undefined) return null;
      const temp = steps.find((s) => s.liquid === liquid)?.temp;
      const bad = vomNamen(liquid);
      return temp
        ? `${bad}: ${grad(temp.aimC)}, zwischen ${grad(temp.minC)} und ${grad(temp.maxC)}.`
        : `Der Prozess nennt keine Temperatur: ${bad}.`;
    }
    default:
      return null;
  }
}

const ordinals = ['erstes', 'zweites', 'drittes', 'viertes'];

export const germanWords: Words = {
  code: 'de',
  spoken: false,
  grammars: 'german',
  typed: (line, situations, grammars, due) =>
    readGerman(line, { situations, due: due ?? [] }, grammars, () => hilfe(situations, grammars).text),
  whoIsHurt(line) {
    const plain = normaliseGerman(line);
    if (OF_ALL.test(plain)) return undefined;
    const [mine, others] = [OF_THE_SPEAKER.test(plain), OF_ANOTHER.test(plain)];
    return mine === others ? undefined : mine ? 'speaker' : 'another';
  },
  describe: beschreibe,
  help: hilfe,
  desks: {
    run: orEnglish(laufPhrases, englishWords.desks.run),
    mix: orEnglish(mischPhrases, englishWords.desks.mix),
    moreOfMix: englishWords.desks.moreOfMix,
    warm: orEnglish(waermePhrases, englishWords.desks.warm),
    bottles: orEnglish(flaschenPhrases, englishWords.desks.bottles),
    timers: orEnglish(weckerPhrases, englishWords.desks.timers),
  },
  assistant: {
    describe: beschreibe,
    undone: (what) => `Zurückgenommen: ${what}.`,
    redone: (what) => `Wieder getan: ${what}.`,
    corrected: (what) => `Berichtigt: ${what}.`,
    nothingTo: (what) =>
      ({
        undo: 'Es gibt nichts zurückzunehmen.',
        redo: 'Es gibt nichts wieder zu tun.',
        correct: 'Ich weiß nicht, was zu berichtigen ist. Sag es noch einmal richtig.',
      })[what],
    stopsClock: (what, seconds) =>
      `Das nähme zurück: ${what}, und die Uhr, bisher ${dauer(seconds)}. Das Bad arbeitet weiter. Sag ja oder nein.`,
    asksIfMeant: (said, meant) =>
      `Gesagt war: ${said}. War es: ${meant}? Das würde schaden, und es ist schon wieder heraus. Bestätige, dass es so war, oder sag nein.`,
    kept: () => 'Bleibt, wie es war.',
  },
  talk: geplauder,
  ordinals,
  choice:
    /^(?:das )?(?:(?<place>erstes|zweites|drittes|viertes)|(?<number>\d+(?:\.\d+)?) ?(?:g|gramm|ml|milliliter)?)$/,
  didYouMean: (said, byTyping, again) =>
    said.length === 1
      ? `${again ? 'Noch offen: meinst' : 'Meinst'} du: ${said[0]}? Sag ja oder nein.`
      : `${again ? 'Noch offen: meinst' : 'Meinst'} du: ${said.slice(0, -1).join('; ')}; oder ${said.at(-1)}? ${byTyping ? `Tippe ${ordinals.slice(0, said.length).join(' oder ')}, oder sag` : 'Sag'} es noch einmal, oder: abbrechen.`,
  leftOut: (worte) => `Das habe ich ausgelassen: „${worte}“. Sag es für sich.`,
  alsoMean: (worte) => `Meintest du auch: ${worte}? Sag ja oder nein.`,
  orDidYouMean: ([, ...andere]) =>
    `Oder meintest du: ${andere.join('; oder ')}? Tippe ${ordinals.slice(1, andere.length + 1).join(' oder ')}.`,
  thatWasAll: 'Das war alles.',
  nothingChanged: 'Nichts geändert.',
  notCleared: (bad) =>
    `${bad ? `Eingießen, ${bad}` : 'Das Eingießen'}: nicht freigegeben. Sag es noch einmal.`,
  screen: bildschirm,
  bath: (id, english) => name({ id, name: english }),
};
