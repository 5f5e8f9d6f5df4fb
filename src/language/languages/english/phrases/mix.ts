import type { MixMessage, Said, Spoiled } from '../../../../chemistry/coach/messages.js';
import type { Phase } from '../../../../chemistry/coach/state.js';
import type { PhExplanation } from '../../../../chemistry/effects.js';
import type { Harm } from '../../../../chemistry/safety/cautions.js';
import type { ReactiveClass } from '../../../../chemistry/substances.js';
import type { PhrasesOf } from '../../phrases.js';
import { sayAddition, sayTolerance, sayWhatIf } from './mix-what-if.js';
import { awayFromGas, spoiling, thenCall } from './run-reasons.js';
import { list, sentences, spokenVolume } from './units.js';

/** "2.01 grams", "50 millilitres": keeps the decimals the scale shows. */
const amount = (s: Said): string => {
  const n = s.amount.toFixed(s.decimals);
  const word = s.unit === 'g' ? 'gram' : 'millilitre';
  return `${n} ${word}${Number(n) === 1 ? '' : 's'}`;
};
const volume = (ml: number): string => spokenVolume(ml);
const ph = (value: number): string => value.toFixed(2);
const choice = (names: string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const units = { oz: 'ounces', grain: 'grains' } as const;

/** "The pH would be 0.04 higher." Nothing where the model does not know or the change is too small to read. */
const shift = (by: number | null): string | null =>
  by === null || Math.abs(by) < 0.005
    ? null
    : `The pH would be ${Math.abs(by).toFixed(2)} ${by > 0 ? 'higher' : 'lower'}.`;

const shortage = (short: { name: string; missing: Said; optional: boolean }[]): string =>
  list(short.map((s) => `${amount(s.missing)} of ${s.name}${s.optional ? ', which may be left out' : ''}`));

const allShort = (m: Extract<MixMessage, { id: 'mix-plan' }>): boolean =>
  m.parts.length > 0 &&
  m.parts.every((p) => m.short.some((s) => s.name === p.name && s.missing.amount >= p.said.amount));

const sayIfHousehold = (dangers: readonly string[]): string | null =>
  dangers.length === 0 ? null : `If you mean household bleach: ${dangers[0]}`;

/** What must be kept from something, by what it is on a bench. */
const keptAway: Readonly<Partial<Record<ReactiveClass, string>>> = {
  acid: 'acids',
  hypochlorite: 'chlorine cleaner',
  ammonium: 'ammonia',
  ferricyanide: 'bleach',
  thiosulphate: 'fixer',
  caustic: 'caustic soda',
};
const harms: Record<Harm, string> = {
  burns: 'It burns skin and eyes.',
  allergy: 'It can cause lasting skin allergy.',
  caustic: 'It is mixed with caustic soda, which burns.',
};

const again = {
  grams: 'Set the scale to grams, leave the powder on, and read it again.',
  zero: 'Empty boat on, zero the scale, then weigh again.',
  decimal: 'Read me the number again, with the point.',
  form: 'Weigh again.',
  jar: 'Set that aside.',
  spilt: 'Put the rest back, empty boat on, zero the scale, and weigh it anew.',
} as const;

const slipWords: Record<PhExplanation['kind'], (s: PhExplanation) => string> = {
  'left-out': (s) => `${s.name} left out`,
  doubled: (s) => `${s.name} added twice`,
  'ten-times': (s) => `${s.name} weighed ten times over`,
  'wrong-form': (s) => `${s.otherForm ?? 'another form'} taken for ${s.name}`,
};

const phrases: PhrasesOf<MixMessage> = {
  'mix-opened': (m) =>
    sentences(
      `${capital(volume(m.volumeMl))} of ${m.name}, ${m.parts === 1 ? 'one part' : `${m.parts} parts`}.`,
      ...m.cautions,
      'Say next when ready.',
    ),
  'mix-unknown': (m) => m.why,
  'mix-how-much': (m) => `How much ${m.name}? Tell me the millilitres.`,
  'mix-ask-larger': (m) =>
    `${m.why} Shall I take ${volume(m.volumeMl)}? What you do not use keeps ${daysOf(m.keepDays)}. Say confirm, or cancel.`,
  'mix-busy': (m) => `The ${m.name} is still open. Finish it, or say stop mixing.`,
  'mix-none': () => 'No mix is open. Say, for example, mix 600 millilitres of developer.',
  'mix-water': (m) =>
    `Put ${volume(m.volumeMl)} of water at ${m.lowC} to ${m.highC} degrees in the jug. ${m.scale ? 'Set the scale to grams, empty boat on, and zero it. Then say' : 'Then say'} next.`,
  'mix-weigh': (m) =>
    sentences(
      ...m.cautions.slice(0, 2),
      sayWeigh(m),
      m.aside === undefined && m.teaspoons !== undefined && `That looks like about ${spoons(m.teaspoons)}.`,
      m.note,
    ),
  'mix-stock': (m) =>
    `The ${m.name} goes into ${volume(m.inMl)} of water first. Take ${volume(m.takeMl)} of that for the bath, and tell me how many millilitres it was.`,
  'mix-right': (m) =>
    `${capital(amount(m.said))} of ${m.name} is right. Stir it in, and say dissolved when it is clear.`,
  'mix-under': (m) => `${capital(amount(m.said))}. Add ${amount(m.more)} more.`,
  'mix-over': (m) =>
    m.excess.unit === 'g'
      ? `${capital(amount(m.excess))} too much ${m.name}. Take it off with a dry spoon, not back into the jar, and read again. If the empty boat was not zeroed, zero it and weigh again. If it is in the water, say dissolved.`
      : `${capital(amount(m.excess))} too much ${m.name}. Take it out, not back into its bottle, and measure again. If it is in the water, say dissolved.`,
  'mix-unit-known': () => 'That is counted in already.',
  'mix-set-grams': (m) => `That is ${amount(m.said)}. Set the scale to grams.`,
  'mix-ask-unit': (m) =>
    `${m.value} would be about right in ${units[m.unit]}; I need ${amount(m.said)}. Is the scale showing ${units[m.unit]}? Say confirm, or cancel if it is grams.`,
  'mix-ask-tenfold': (m) =>
    `${m.value} is ${m.direction === 'more' ? 'ten times too much' : 'a tenth of it'}; I need ${amount(m.said)}. Is the point in the wrong place? Say confirm, or cancel if the number is right.`,
  'mix-ask-tare': (m) =>
    m.sameAs === undefined
      ? `That is ${amount(m.excess)} over. Was the scale zeroed with the empty boat on it? Say confirm, or cancel if it was not.`
      : `That is over by the ${amount(m.excess)} of ${m.sameAs} before it. Was the scale zeroed in between? Say confirm, or cancel if it was not.`,
  'mix-ask-form': (m) =>
    `${capital(amount(m.value))} would be right for ${m.other}, not for ${m.name}. Read the jar: is it ${m.other}? Say confirm, or cancel.`,
  'mix-ask-jar': (m) =>
    m.early !== undefined
      ? `That is the ${m.other}, ${m.early === 1 ? 'one part' : `${m.early} parts`} early; I asked for ${m.name}. Say confirm, and set it aside for its turn; cancel, if it is ${m.name}. If it is already in the water, say dissolved.`
      : `${capital(amount(m.value))} is the weight for ${m.other}${m.isIn ? ', and all of that is in already' : ''}. I asked for ${m.name}. Is it ${m.other} on the scale? Say confirm or cancel; if it is already in the water, say dissolved.`,
  'mix-in-already': (m) =>
    sentences(
      `All the ${m.other} is in already. Add no more of it.`,
      m.name !== null && `I asked for ${m.name}.`,
    ),
  'mix-stranger': (m) =>
    m.added
      ? sentences(
          m.gas && awayFromGas,
          `Stop, add nothing more. ${capital(m.name)} ${m.belongs ? 'in the place of another part' : `does not belong in ${m.bath}`}: this batch cannot be used.`,
          ...m.dangers,
          m.gas
            ? 'Say confirm to give it up; if none of that is in it, say undo that.'
            : 'Shall I give it up? Say confirm, or cancel.',
        )
      : sentences(
          `Do not put it in. ${capital(m.name)} does not belong in ${m.bath}.`,
          ...m.dangers,
          `Is it ${m.name} on the scale? Say confirm or cancel; if it is already in the water, say dissolved.`,
        ),
  'mix-held': (m) =>
    `The ${m.name} stays stopped: put nothing more in and use nothing of it. Say confirm to give it up; if none of that was so, say undo that.`,
  'mix-ask-dissolved': (m) =>
    `That reads like ${m.other}. Is the ${m.name} dissolved? Say confirm, or cancel.`,
  'mix-weigh-again': (m) => `${again[m.why]} I need ${amount(m.said)} of ${m.name}.`,
  'jar-noted': (m) =>
    `Noted: ${m.name}${m.purityPercent === null ? '' : `, ${m.purityPercent} percent pure`}.${m.said === null ? '' : ` ${capital(amount(m.said))} of it in this batch.`}`,
  'jar-which': (m) =>
    m.family === null
      ? `Which jar? Say its name with it${m.forms.length > 0 ? `: ${choice(m.forms)}` : ''}.`
      : m.strongPercent !== undefined
        ? `At ${m.strongPercent} percent I cannot reckon the millilitres: I lack its density. I know ${choice(m.forms)}.`
        : `I know ${choice(m.forms)}. Which is it?`,
  'mix-water-is': (m) =>
    m.tempC > m.highC
      ? sentences(
          `${m.tempC} degrees is too hot: this is mixed at ${m.lowC} to ${m.highC}.`,
          m.agent && 'Heat spoils the developing agent.',
          'Let it cool before anything goes in.',
        )
      : m.tempC < m.lowC
        ? `${m.tempC} degrees is cold: this dissolves at ${m.lowC} to ${m.highC}. Warm it a little.`
        : `${m.tempC} degrees is right.`,
  shopping: sayShopping,
  control: sayControl,
  checks: (m) =>
    sentences(
      m.ph === null || !m.ph.buffered
        ? `The pH of ${m.name} proves little: nothing in it holds it.`
        : `${capital(m.name)} has pH ${ph(m.ph.aim)}, within ${ph(m.ph.tolerance)}, by a meter, cooled to 25 degrees; a strip shows half a unit and no more.`,
      m.gravity === null
        ? 'No specific gravity is published for it.'
        : `A hydrometer shows ${m.gravity.aim.toFixed(3)}, within ${m.gravity.tolerance.toFixed(3)}, at the temperature printed on it, read at the bottom of the curve.`,
    ),
  keeping: (m) =>
    `${m.baths.map((b) => `${capital(b.name)} keeps ${daysOf(b.unusedDays)} unused and ${daysOf(b.usedDays)} once used`).join('. ')}. That is common practice, for full, stoppered, cool bottles.`,
  'mix-form-changed': (m) => `Noted: ${m.name}.`,
  'mix-aside': (m) =>
    `Keep the ${m.other} aside, with a note on it. Now weigh ${amount(m.said)} of ${m.name}.`,
  'mix-ask-doubted': (m) =>
    `You told me ${m.value} for ${m.name}, and it needs ${amount(m.said)}: I have not taken that down. If the scale did read ${m.value}, say confirm; if that much is in the water, say dissolved; if not, say what it read. Add nothing more until then.`,
  'mix-no-weight': (m) =>
    `You have not told me a weight for ${m.name}. I need ${amount(m.said)}. What did the scale say?`,
  'mix-part-in': (m) =>
    `${capital(amount(m.inWater))} of ${m.name} is in. Zero the scale and weigh ${amount(m.more)} more.`,
  'mix-missing': (m) =>
    sentences(
      `The ${m.name} is not in yet.`,
      m.ph !== null &&
        m.phWithout !== null &&
        Math.abs(m.phWithout - m.ph) >= 0.05 &&
        `Without it the pH would be ${ph(m.phWithout)}, not ${ph(m.ph)}.`,
      m.optional
        ? 'It may be left out. Say confirm to leave it out, or cancel.'
        : 'The bath does not work without it.',
    ),
  'mix-out-of-order': (m) =>
    sentences(
      `Then ${m.other} went in before ${m.name}.`,
      m.risky ? 'That order can harm the bath; go on at once.' : 'No great harm.',
    ),
  'mix-untaken': (m) =>
    m.waits
      ? 'That counts when this is answered.'
      : 'I have taken none of that down. Answer first, then say it again.',
  'mix-offer-scale': (m) =>
    sentences(
      `${capital(amount(m.excess))} too much ${m.name} is in.`,
      shift(m.phShift),
      `I can make the batch ${volume(m.volumeMl)} so that it fits, if jug and bottle take that. Say confirm, or cancel to leave it.`,
    ),
  'mix-cannot-scale': (m) =>
    sentences(
      `${capital(amount(m.excess))} too much ${m.name} is in: ${Math.round(m.strength * 100)} percent of what it should be.`,
      {
        jug: 'The jug is too small to scale the batch.',
        range: 'A batch made larger by so much is more than I can plan.',
        factor: 'That is too much to scale the batch.',
      }[m.because],
      shift(m.phShift),
      m.strength > 1.1
        ? 'It cannot become right. Give it up and start again? Say confirm, or cancel to go on with it marked as spoiled.'
        : 'Carry on, and check the pH.',
    ),
  'mix-scaled': (m) =>
    sentences(
      `The batch is now ${volume(m.volumeMl)}.`,
      m.toAdd > 0 && `${m.toAdd === 1 ? 'One part' : `${m.toAdd} parts`} need a little more.`,
    ),
  'mix-will-fail': (m) =>
    `${m.still ? 'This batch stays spoiled' : 'Then it goes on, marked as spoiled'}: ${spoiledBy(m)}.`,
  'mix-failed': (m) =>
    sentences(
      `By its weighings this ${m.name} is not right: ${m.problems.slice(0, 2).join('; ')}.`,
      m.add.length > 0 ? `To put it right, stir in ${list(m.add.map(sayAddition))}.` : 'Do not use it.',
    ),
  'mix-little-short': (m) =>
    `${capital(amount(m.inWater))} of ${m.name} is in, ${amount(m.short)} short: I go on with that.`,
  'mix-kept': (m) => sentences(`Left as it is: too much ${m.name}.`, shift(m.phShift)),
  'mix-make-up': (m) =>
    `All is in. Let it come to room temperature, add water up to ${volume(m.volumeMl)}, read at the bottom of the curve, eye level with it, stir, and say made up.`,
  'mix-too-full': (m) =>
    sentences(
      m.pourToMl === undefined
        ? `${capital(volume(m.volumeMl))} is more than planned: the bath is ${Math.round(m.strength * 100)} percent strong.`
        : `${capital(volume(m.volumeMl))} is more than the whole bath is to have: pour it off to ${volume(m.pourToMl)}, then say next.`,
      m.grow && m.pourToMl !== undefined && 'Or the batch is made as large: say confirm.',
      m.grow &&
        m.pourToMl === undefined &&
        'Shall I make the batch as large? Say confirm, or cancel to leave it.',
    ),
  'mix-much-water': (m) =>
    `${capital(volume(m.volumeMl))} to begin with, not ${volume(m.aimMl)}: the parts take room too, and with all of them in it may not come over ${volume(m.fullMl)}.`,
  'mix-stays-in': (m) =>
    `What is dissolved cannot be taken out of the ${m.name}. If more of a part is in than I have counted, tell me how much: then the batch is made larger, or begun again.`,
  'mix-too-little': (m) => `Only ${volume(m.volumeMl)}. Add water up to ${volume(m.aimMl)}.`,
  'mix-ask-ph': (m) =>
    sentences(
      `If you have a meter or strips: what is the pH, cooled to 25 degrees? It should be ${ph(m.aim)}, within ${ph(m.tolerance)}.`,
      m.gravity !== undefined && `A hydrometer should show ${m.gravity.toFixed(3)}.`,
      'Otherwise say next.',
    ),
  'mix-gravity': (m) =>
    m.good
      ? `${m.gravity.toFixed(3)} is right. Now the pH, or say next.`
      : `${m.gravity.toFixed(3)} is off: it should be ${m.aim.toFixed(3)}, within ${m.tolerance.toFixed(3)}. That is ${m.strength < 1 ? 'a part left out, or too much water' : 'a part too much, or too little water'}: about ${Math.round(m.strength * 100)} percent of what should be dissolved. Check the volume. Then the pH, or say next.`,
  'mix-ph-good': (m) => `pH ${ph(m.ph)} is good.`,
  'mix-ask-meter': (m) => `${m.ph}: by a meter, or by a strip? Say confirm for a meter, cancel for a strip.`,
  'mix-ph-near': (m) =>
    `A strip reads to half a unit: ${m.ph} may be right, and proves no more. The bath should be at ${ph(m.aim)}, within ${ph(m.tolerance)}; only a meter shows that.`,
  'mix-ph-off': (m) =>
    sentences(
      `pH ${ph(m.ph)} is off: it should be ${ph(m.aim)}, within ${ph(m.tolerance)}.`,
      m.slips.length > 0 && `It would fit ${choice(m.slips.map((s) => slipWords[s.kind](s)))}.`,
      'Check the meter first. Say next to go on as it is.',
    ),
  'mix-ask-bottle': (m) =>
    m.again
      ? 'Without its bottle I lose its age. Which bottle? Or say next, and name it later.'
      : `${capital(volume(m.volumeMl))} of ${m.name} is ready. Which bottle does it go in?`,
  'mix-ask-taken': (m) =>
    `By my record bottle ${m.bottle} holds ${m.holds}. Is it empty and rinsed? Say confirm, or name another bottle.`,
  'mix-done': (m) =>
    sentences(
      `${capital(m.name)}, batch ${m.batch}, is done${m.bottle === undefined ? '' : `, in bottle ${m.bottle}`}.`,
      m.problems.length > 0
        ? `It failed its checks and is marked so: ${m.problems[0]}. Do not use it; local rules say where it goes.`
        : `Keep it until ${date(m.keepUntil)}.`,
      m.bottle === undefined && `When it is in a bottle, say: bottle 1 holds ${m.liquid.replace(/-/g, ' ')}.`,
      'Put the label on now: say read me the label.',
    ),
  'mix-label': (m) => m.text,
  'mix-stopped': (m) =>
    sentences(
      `The ${m.name} is given up.`,
      m.used > 0 &&
        'What went into the water is off the shelf. The safety data sheet and your local rules say where it goes.',
    ),
  'mix-ask-cleared': (m) =>
    `You said that ${m.name} is in it where it should not be. Is that wrong? Say confirm, or cancel.`,
  'mix-ask-stop': (m) => `Give up the ${m.name}? Say confirm, or cancel.`,
  'mix-went-on': () => 'Good. Go on.',
  'mix-amount': (m) =>
    sentences(
      `${capital(amount(m.said))} of ${m.name} in this batch.`,
      m.settled
        ? 'It is in already: add no more of it.'
        : m.inWater.amount > 0 && `${capital(amount(m.inWater))} of that is in.`,
    ),
  'mix-instead': (m) =>
    sentences(
      `${capital(amount(m.said))} of ${m.name} for ${amount(m.ofSaid)} of ${m.of}, if it is pure.`,
      'Nobody told me how pure yours is: read its label, and use none that has anything else in it.',
      m.note,
      'If you take it, say which form it is.',
    ),
  'mix-where': (m) =>
    sentences(
      `Mixing ${m.name}: ${m.doneParts} of ${m.of} in.`,
      m.spoiled && `It is spoiled: ${spoiledBy(m.spoiled)}.`,
      m.next !== undefined &&
        (m.weighed !== undefined
          ? `${capital(amount(m.weighed))} of ${m.next} is weighed: stir it in, weigh no more of it, and say dissolved.`
          : m.said !== undefined && `Next, ${amount(m.said)} of ${m.next}.`),
      m.phase === 'making-up' && 'Water up to the mark is next.',
      m.phase === 'ph' && 'The pH is next.',
      m.phase === 'bottling' && 'The bottle is next.',
      m.inWater.length > 0 &&
        `In the water: ${list(m.inWater.map((part) => `${amount(part.said)} of ${part.name}`))}.`,
      m.asked !== undefined &&
        `${capital(amount(m.asked.said))} of ${m.asked.name} is told once, and not counted yet: say dissolved if it is in the water.`,
    ),
  'mix-not-now': (m) =>
    m.why === 'no-question' ? 'I have not asked anything.' : `Not yet. ${firstDo[m.phase]}`,
  'mix-bad-value': (m) =>
    ({
      negative: 'A reading below zero means the scale is not zeroed. Zero it and weigh again.',
      ph: 'A pH lies between 0 and 14. Read it again.',
      unit: 'That unit does not fit. Powders are weighed, liquids measured.',
    })[m.why],
  'mix-cautions': (m) =>
    m.bath?.keepFrom.length
      ? sentences(
          `${capital(m.about)}: keep ${list(m.bath.keepFrom.map((of) => keptAway[of] ?? of))} away${m.bath.gas ? ', or poison gas forms' : ''}.`,
          ...m.bath.harms.map((harm) => harms[harm]),
          'Gloves, goggles, air. Say more for the rest.',
        )
      : sentences(`${capital(m.about)}.`, ...m.cautions),
  'mix-spilt': (m) => sentences(...m.cautions, `Noted: ${m.name} was spilled.`),
  'mix-short': (m) => `The shelf is short of ${shortage(m.short)}.`,
  'mix-plan': (m) =>
    sentences(
      `${capital(volume(m.volumeMl))} of ${m.name} needs ${list(m.parts.map((p) => `${amount(p.said)} of ${p.name}`))}.`,
      m.shelfKept &&
        (m.short.length > 0
          ? `The shelf is short of ${allShort(m) ? 'all of it' : shortage(m.short)}.`
          : 'All of it is on the shelf.'),
      m.costPerFilm > 0 &&
        `That is ${m.costPerFilm.toFixed(2)} a film for ${Math.floor(m.films)} films${m.unpriced > 0 ? ', not counting what has no price' : ''}.`,
    ),
  'shelf-one': (m) =>
    m.said === null
      ? `I know of no ${m.name} on the shelf.`
      : sentences(
          `${capital(amount(m.said))} of ${m.name}.`,
          m.enoughMl !== undefined && `Enough for ${volume(m.enoughMl)}.`,
        ),
  'shelf-all': (m) =>
    m.items.length === 0
      ? 'The shelf is empty, as far as I know.'
      : `On the shelf: ${list(m.items.map((i) => `${amount(i.said)} of ${i.name}`))}.`,
  'shelf-added': (m) =>
    `Noted: now ${amount(m.said)} of ${m.name}${m.purityPercent === null ? '' : `, ${m.purityPercent} percent pure,`} on the shelf.`,
  'shelf-unknown': (m) =>
    `I do not know ${m.substance.replace(/-/g, ' ')}. Say its name as on the jar. Until then its label and its data sheet decide, and it stays away from every bath.`,
  'shelf-which': (m) => `Which ${m.substance}: ${choice(m.forms)}? Look at the jar and say it with its name.`,
  'what-if': (m) =>
    sentences(
      sayWhatIf(m.answer),
      m.recordedMl !== undefined && `By my record there are ${volume(m.recordedMl)}.`,
      sayIfHousehold(m.ifHousehold),
    ),
  'until-spoiled': sayTolerance,
  'what-if-ask': (m) =>
    m.why === 'volume'
      ? 'Into how much? Say the question again with both volumes.'
      : 'I do not know what that bottle holds. Say which bath it goes into.',
  'may-meet': (m) =>
    sentences(
      m.done && m.gas && awayFromGas,
      m.done && !m.gas && 'Pour nothing more on it, and keep your face away.',
      ...m.dangers.slice(0, 2),
      m.unknown.length > 0 &&
        `I do not know ${list(m.unknown)}: keep it away from everything here. No acid and no chlorine cleaner ever on bleach or fixer.`,
      sayIfHousehold(m.ifHousehold),
      m.otherProcess.length > 0 &&
        `I keep no formula of this process's ${list(m.otherProcess)}: use nothing that was poured together.`,
      m.done && `Use nothing of it. ${thenCall}`,
      m.dangers.length > 0 &&
        !m.done &&
        (m.never
          ? 'So no: keep them apart.'
          : 'So do not mix them; a trace carried over may do no harm: ask with both amounts.'),
      spoilt(m.spoils) && `Keep them apart. ${spoilt(m.spoils)} Each goes into a jug of its own.`,
      m.dangers.length === 0 &&
        m.unknown.length === 0 &&
        !spoilt(m.spoils) &&
        m.otherProcess.length === 0 &&
        !m.done &&
        'My table has nothing on these two, and that is no leave: keep them apart. The safety data sheets decide, section 10. What it does to a bath I reckon from both amounts.',
    ),
};

const spoilt = (reason: string | null): string | undefined =>
  Object.entries(spoiling).find(([of]) => of === reason)?.[1];

const measureWords = { dMin: 'D-min', speed: 'speed', contrast: 'contrast' } as const;

function sayControl(m: Extract<MixMessage, { id: 'control' }>): string {
  if (m.verdict === null)
    return `${m.strips === 0 ? 'No control strip is' : 'Only the reference strip is'} noted yet. Note one with: tankside control add.`;
  const { date, off, drifts } = m.verdict;
  const worst = off.map(
    (d) =>
      `${measureWords[d.measure]} in ${d.channel} is ${Math.abs(d.by).toFixed(2)} too ${d.by > 0 ? 'high' : 'low'}, ${d.level === 'out' ? 'out of control' : 'over the action limit'}`,
  );
  const moving = drifts.map((d) => `${measureWords[d.measure]} in ${d.channel}`);
  return sentences(
    worst.length === 0
      ? `The strip of ${date} is in control.`
      : `The strip of ${date}: ${list(worst.slice(0, 3))}.`,
    moving.length > 0 && `Drifting: ${list(moving.slice(0, 3))}.`,
    'For the plots run: tankside control show.',
  );
}

const daysOf = (n: number): string =>
  n >= 60 ? `${Math.round(n / 30.4)} months` : n === 1 ? 'one day' : `${n} days`;

function sayShopping(m: Extract<MixMessage, { id: 'shopping' }>): string {
  const { list: day } = m;
  const packs = day.buy.map(
    (b) =>
      `${b.packs.count === 1 ? '' : `${b.packs.count} times `}${b.packs.size} ${b.unit === 'g' ? 'grams' : 'millilitres'} of ${b.name}${b.optional ? ', which may be left out' : ''}`,
  );
  const shortest = day.baths.reduce((a, b) => (b.unusedDays < a.unusedDays ? b : a));
  return sentences(
    `For ${day.films === 1 ? 'one film' : `${day.films} films`} of 36 in a tank of ${volume(m.tankMl)}:`,
    packs.length === 0 ? 'all of it is on the shelf.' : `buy ${list(packs)}.`,
    day.cost > 0 &&
      `That is ${day.cost.toFixed(2)}${day.unpriced.length > 0 ? `, not counting ${list(day.unpriced)}` : ''}.`,
    `Mix the ${shortest.name} last: it keeps ${daysOf(shortest.unusedDays)} unused and ${daysOf(shortest.usedDays)} once used.`,
    'Fixer and bleach are collected afterwards, each by itself; local rules decide.',
  );
}

const spoiledBy = (m: Spoiled): string => (m.stranger ? `${m.name} is in it` : `too much ${m.name}`);

function sayWeigh(m: Extract<MixMessage, { id: 'mix-weigh' }>): string {
  if (m.aside !== undefined) return `You set ${amount(m.aside)} of ${m.name} aside. Is it still as weighed?`;
  const part = `Part ${m.position} of ${m.of}`;
  if (m.dilute !== undefined) {
    const { amount: stock, inMl, takeMl } = m.dilute;
    return `You need ${amount(m.said)} of ${m.name}, too little to measure. Put ${amount(stock)} in ${volume(inMl)} of water and take ${takeMl} millilitres of that; the rest keeps as stock. ${part}.`;
  }
  return `${m.said.unit === 'g' ? 'Weigh' : 'Measure'} ${amount(m.said)} of ${m.name}. ${part}, within ${amount(m.tolerance)}.`;
}

const spoons = (n: number): string => {
  const whole = Math.floor(n);
  if (n === 0.5) return 'half a level teaspoon';
  return `${whole}${n > whole ? ' and a half' : ''} level teaspoon${n > 1 ? 's' : ''}`;
};

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
const date = (iso: string): string => {
  const [y, m, d] = iso.split('-').map(Number);
  return `${d} ${months[(m ?? 1) - 1]} ${y}`;
};

/** What has to be done before anything else, by where the mix stands. */
const firstDo: Record<Phase, string> = {
  cautions: 'Say next to begin.',
  water: 'Water into the jug, scale zeroed; then say next.',
  weighing: 'Weigh the part I named, and tell me the reading.',
  dissolving: 'Stir until it is gone, then say dissolved.',
  'making-up': 'Water up to the mark, then say made up.',
  ph: 'Tell me the pH, or say next to go on without.',
  bottling: 'Name the bottle, or say next.',
  done: 'Nothing is being mixed.',
};

/** What a message leaves for "more"; null: nothing. */
export const moreOfMix = (m: MixMessage): string | null =>
  m.id === 'mix-cautions' && m.bath?.keepFrom.length ? [...m.cautions, thenCall].join(' ') : null;

/** The words of one message of the mixing bench. */
export function phraseMix(message: MixMessage): string {
  const say = phrases[message.id] as (m: MixMessage) => string;
  return say(message);
}
