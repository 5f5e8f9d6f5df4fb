import type { Exposure } from '../../../../chemistry/safety/first-aid.js';
import type { ReasonId } from '../../../../process/guard-table.js';
import type { Named, Spoken } from '../../../../process/message.js';
import type { CautionId } from '../../../../world/liquids.js';
import { aidIn } from '../../aid.js';
import { bare, spokenDuration, spokenTemp, spokenVolume } from './units.js';

/** "the developer", "water". */
export const the = (bath: Named): string => (bath.id === 'water' ? 'water' : `the ${bath.name}`);
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
/** Where a gas comes off, the room goes before the bath. */
export const awayFromGas = 'Leave the room, let it air, and stay out of the fumes.';
/** Two baths that are lost where they meet, by the guard's reason. */
export const spoiling = {
  'bleach-fixer-bottle': 'Bleach and fixer destroy each other.',
  'bleach-developer-bottle': 'Bleach and developer destroy each other.',
  'fixer-developer-bottle': 'Fixer and developer spoil each other.',
};
const other = (s: Spoken): string => (s.other ? the(s.other) : 'the bath before');
const bottle = (s: Spoken): string => (s.bottle === null ? 'the bottle' : `bottle ${s.bottle}`);
const off = (s: Spoken): string => spokenTemp(Math.abs((s.tempC ?? 0) - (s.aimC ?? 0)));

/** Why a move is right or wrong: one short sentence each. */
export const reasons: Record<ReasonId, (s: Spoken) => string> = {
  due: () => 'The film is ready for it.',
  'water-safe': () => 'Water does the film no harm.',
  'no-film': () => 'There is no film in the tank.',
  again: (s) => `The film has had ${the(s.bath)}; more does no harm.`,
  'no-use': (s) => `${capital(the(s.bath))} does nothing for the film now.`,
  'image-lost': () => 'The picture on this film is already lost, so nothing more can spoil it.',
  'backing-already-off': () => 'The backing is already off.',
  'backing-in-developer': () => 'The black backing is still on and would come off into the developer.',
  'backing-loose': () =>
    'The backing is loose and would foul the developer. Rinse until the water runs clear.',
  'stop-before-developer': () =>
    'The developer comes first. Stop bath does nothing yet, and what is left of it weakens the developer.',
  'acid-before-developer': () => 'Acid left on the film weakens the developer. Wash the film first.',
  'bleach-kills-latent': () => 'Bleach before the developer destroys the picture.',
  'fixer-kills-latent': () => 'Fixer before the developer dissolves the picture.',
  'wetting-early': () => 'The final rinse comes last. Wash the film before you go on.',
  'prebath-late': () =>
    'The film is developed, and the prebath lets it go on developing unevenly. Use the stop bath.',
  'more-development': () => 'The film is already developed. More developer cannot be taken back.',
  'water-before-stop': () => 'Water only slows the developer down. The stop bath should be next.',
  'developer-in-bleach': () => 'Developer left on the film stains it in the bleach. Stop and wash it first.',
  'developer-in-fixer': () => 'Developer left on the film spoils the fixer. Stop and wash it first.',
  'acid-in-bleach': () =>
    'Acid from the stop bath must not reach a ferricyanide bleach. Wash the film first.',
  'fixer-before-bleach': () =>
    'Fixer before the bleach leaves the silver in. Wash, bleach and fix again later.',
  'taints-bath': (s) => `What clings to the film spoils ${the(s.bath)}. Wash the film first.`,
  redevelops: () => 'Developer after the bleach fogs the whole picture. The film must be fixed instead.',
  'acid-on-ferricyanide': () =>
    'Bleach is still on the film, and acid on ferricyanide can make poison gas. Wash it first.',
  'bleach-in-fixer': () => 'Bleach left on the film destroys the fixer. Wash the film first.',
  'bleach-in-developer': () => 'Bleach left on the film destroys the developer. Wash it out first.',
  'nothing-to-develop': () => 'Nothing is left on the film to develop.',
  'fixer-in-developer': () => 'Fixer left on the film ruins the developer. Wash it out first.',
  'fixer-in-bleach': () => 'Fixer left on the film spends the bleach. Wash the film first.',
  'acid-on-fixer': () => 'Acid on fixer makes a choking gas. Wash the film first.',
  'silver-left': () => 'The silver is still in the film. Wash, bleach and fix it first.',
  'fixer-left': () => 'Fixer is still on the film and would stay in it. Wash it first.',
  'finished-film': () => 'The film is finished. After this it needs a wash and a final rinse again.',
  'washes-off-rinse': () => 'Water washes off the final rinse. Give it again afterwards.',
  'wetting-in-developer': () => 'The final rinse on the film foams in the developer. Wash the film first.',
  'prebath-in-developer': () => 'Prebath left on the film shifts the developer. Rinse the film first.',
  'rest-of-development': (s) =>
    `The film has had ${spokenDuration(s.seconds ?? 0)} of it; this gives it the rest.`,
  'developer-short': (s) =>
    `The film has had only ${spokenDuration(s.seconds ?? 0)} of developer. The stop bath ends it there, and the picture comes out thin.`,
  'bleach-takes-silver': () => 'The silver is the picture on this film, and bleach takes it away.',
  'backing-still-on': () =>
    'The black backing is still on. Give the film the prebath and wipe it off under water before the final rinse.',
  'temperature-doubted': (s) =>
    `${spokenTemp(s.tempC ?? 0)} was said of ${the(s.bath)} and never confirmed. Read it again first.`,
  spoilt: (s) =>
    `${capital(bottle(s))} has ${s.other ? s.other.name : 'another bath'} in it. Do not use it.${s.why ? ` ${capital(bare(s.why))}.` : ''}`,
  'silver-film': () =>
    'The silver is the picture on this film, and this sheet is for colour: its bleach takes the picture away. Process it with a black-and-white sheet.',
  'colour-film': () =>
    'This is colour film, and the sheet makes a silver picture: its colours never come. Process it with a colour sheet.',
  'backed-film': () =>
    'This film has a black backing, which comes off into the baths, and the sheet has no bath that takes it off first.',
  oxidised: (s) =>
    `${capital(the(s.bath))} in ${bottle(s)} was said to be brown, or to have stood open: it may be oxidised. Test it on a strip, or mix fresh.`,
  'gone-off': (s) =>
    `${capital(the(s.bath))} in ${bottle(s)} was said to be milky, or of another colour. Do not use it: mix fresh.`,
  'mixed-wrong': (s) =>
    `${capital(the(s.bath))} in ${bottle(s)} was said to be mixed wrong: a part is missing, or there is too much or too little of one. Put that right, or mix fresh.`,
  'ph-off': (s) =>
    `The pH read of ${the(s.bath)} in ${bottle(s)} is not what it should be. Read it anew, or mix fresh.`,
  'label-lost': (s) =>
    `The label came off ${bottle(s)}: I am not sure that it holds ${the(s.bath)}. Check it first.`,
  unanswered: (s) =>
    `A question about ${bottle(s)} was left open: ${s.other ? `${the(s.other)} may be in it beside` : 'something else may be in it than'} ${the(s.bath)}. If you know what it holds, say so.`,
  spilled: (s) =>
    `Some of ${bottle(s)} was spilled or poured off, and nobody said how much is left. Say how much it holds.`,
  'film-doubted': (s) =>
    `It may have been ${s.other ? the(s.other) : 'another bath'}: it is not settled what was in the tank. If you know it, say which bath it was.`,
  'doubtful-mixture': (s) =>
    `${capital(bottle(s))} has ${s.other ? s.other.name : 'another bath'} in it${s.why ? `: ${bare(s.why)}` : ', and I do not know what that does'}.`,
  'said-against': (s) => `You said: ${bare(s.why ?? '')}. See to that first.`,
  'faulty-batch': (s) =>
    `The batch in ${bottle(s)} failed its checks when it was mixed${s.why ? `: ${bare(s.why)}` : ''}.`,
  spent: (s) =>
    `${capital(bottle(s))} has done ${s.films ?? 0} films and is exhausted. Replenish it or mix fresh.`,
  'too-old': (s) => `${capital(bottle(s))} is past its keeping time.`,
  'own-bottle': (s) => `${capital(bottle(s))} holds ${the(s.bath)}.`,
  'empty-bottle': (s) => `${capital(bottle(s))} is empty.`,
  'other-label': (s) => `${capital(bottle(s))} is empty but held ${other(s)}. Rinse and label it first.`,
  'bad-bottle': (s) =>
    `${capital(bottle(s))} is not to be used${s.other ? `: ${s.other.name} ${s.unsettled ? 'may be' : 'is'} in it` : ''}. What goes in there is lost with it. Take a clean jug.`,
  dilutes: (s) => `Water would dilute ${other(s)} in ${bottle(s)}.`,
  'prebath-in-developer-bottle': (s) =>
    `${capital(bottle(s))} holds developer. Prebath shifts its pH and dilutes it.`,
  'acid-ferricyanide-bottle': (s) =>
    `${capital(bottle(s))} holds ${other(s)}. Acid and ferricyanide together can make poison gas.`,
  'acid-thiosulphate-bottle': (s) =>
    `${capital(bottle(s))} holds ${other(s)}. Acid and fixer make a choking gas.`,
  'acid-developer-bottle': (s) =>
    `${capital(bottle(s))} holds ${other(s)}. Acid kills developer and can make a choking gas.`,
  'bleach-fixer-bottle': (s) => `${capital(bottle(s))} holds ${other(s)}. ${spoiling['bleach-fixer-bottle']}`,
  'bleach-developer-bottle': (s) =>
    `${capital(bottle(s))} holds ${other(s)}. ${spoiling['bleach-developer-bottle']}`,
  'fixer-developer-bottle': (s) =>
    `${capital(bottle(s))} holds ${other(s)}. ${spoiling['fixer-developer-bottle']}`,
  'mixes-baths': (s) => `${capital(bottle(s))} holds ${other(s)}. ${capital(the(s.bath))} would spoil it.`,
  'water-bottle': (s) => `${capital(bottle(s))} is for water.`,
  tainted: (s) => {
    const of = s.other ? s.other.name : 'another bath';
    return s.bottle === null
      ? `${capital(the(s.bath))} has ${of} in it and would spoil its bottle.`
      : `Bottle ${s.bottle}, ${the(s.bath)}, has had ${of} in it. Discard it and mix fresh.`;
  },
  'wash-water-back': () => 'Used water does not go back into a bottle.',
  'one-shot-back': (s) => `${capital(the(s.bath))} is used once on this sheet, not kept.`,
  waste: () => 'It is not kept.',
  'throws-away-good-bath': (s) => `${capital(the(s.bath))} is used again on this sheet.`,
  'top-up': (s) => `More of ${the(s.bath)} that is in.`,
  'developer-cold': (s) =>
    `The developer is at ${spokenTemp(s.tempC ?? 0)}, ${off(s)} too cold. The picture comes out thin and off colour.`,
  'developer-hot': (s) =>
    `The developer is at ${spokenTemp(s.tempC ?? 0)}, ${off(s)} too hot. The picture comes out dense and too hard.`,
  'developer-was-off': (s) =>
    `The developer was at ${spokenTemp(s.tempC ?? 0)} when it was read ${spokenDuration(s.agoS ?? 0)} ago, ${off(s)} off. Read it again first.`,
  'bath-cold': (s) =>
    `${capital(the(s.bath))} is at ${spokenTemp(s.tempC ?? 0)}, ${off(s)} too cold. It works much more slowly, and in its usual time it may leave silver in the film.`,
  'developer-long-unread': (s) =>
    `The last reading of the developer, ${spokenTemp(s.tempC ?? 0)}, is ${spokenDuration(s.agoS ?? 0)} old. Read it again first.`,
  'developer-unread': (s) =>
    `Only the tub was read, ${spokenTemp(s.tempC ?? 0)}, and a bottle may be degrees behind it. Read the developer itself first.`,
  'too-little': (s) =>
    `${capital(bottle(s))} holds only ${spokenVolume(s.ml ?? 0)}, too little to cover the film.`,
  'not-covered': (s) =>
    `${spokenVolume(s.ml ?? 0)} does not cover the film${s.ofMl === undefined ? '' : `: the tank takes ${spokenVolume(s.ofMl)}`}. Pour the rest of ${the(s.bath)} in at once, or part of the film stays without it.`,
  'no-headroom': (s) => `${capital(bottle(s))} has room for only ${spokenVolume(s.ml ?? 0)}.`,
  early: (s) => `It is ${spokenDuration(s.seconds ?? 0)} too early to drain.`,
};

export const cautions: Record<CautionId, string> = {
  gloves: 'Wear gloves.',
  eyes: 'Wear eye protection.',
  ventilation: 'Keep the room aired.',
  'acid-apart': 'Keep acid away from sulphite and metabisulphite.',
  'acid-ferricyanide': 'Keep acid away from ferricyanide.',
  'acid-into-water': 'When mixing, pour acid into water, never water into acid.',
  'developer-skin': 'Developer can cause lasting skin allergy. Keep it off your skin.',
  'children-food': 'Keep children, pets, food and kitchen ware away.',
  'spill-wipe': 'Wipe it up and rinse the place with water.',
  'spill-stop': 'It is acid: keep it away from bleach and fixer, and wipe it up with plenty of water.',
  'spill-bleach':
    'It is ferricyanide: let no acid near it, wipe it up and bag the cloths. Was it household bleach? Then say so: acid, ammonia or fixer near it frees poison gas.',
  'spill-fixer': 'Let no acid or bleach near it, and wipe it up with water.',
  slippery: 'Mind the wet floor.',
  electric: 'Keep it away from plugs.',
  'data-sheet': 'The safety data sheet decides.',
  'local-codes': 'Local rules decide what may go down the drain.',
  help: 'On contact or fumes follow the safety data sheet, and call your poison centre or emergency number.',
};

/**
 * What labels print for the first minute. source: GHS precautionary statements P305+P351+P338, P303+P361+P353,
 * P301+P330+P331, P304+P340 (UN GHS rev. 9, annex 3, from memory); washing out with water at once also in Kodak's MSDS of
 * its RA-4 bleach-fix (2009), section 4. In a face it may be in the eyes, and was breathed.
 * Of heat: P334 (cool water; from memory), and common practice, as for clothes that burn and currents.
 */
const firstAid: Readonly<Record<Exposure, string>> = {
  collapsed: 'Call the emergency number now. Get them into fresh air, only where that is safe for you.',
  breathless: 'Get out into fresh air and call the emergency number, now.',
  alight: 'Stop, drop, roll; smother it. Then cool with plenty of water, and call the emergency number.',
  shocked: 'Touch nobody before the current is off. Then call the emergency number, even if all seems well.',
  burnt:
    'Cool it under running water now, and keep cooling. If it is large or deep, call the emergency number.',
  eye: 'Rinse the eye with water now, lids open. Contact lenses out if you can. Keep rinsing for many minutes.',
  face: 'Rinse face and eyes with water now, lids open. Contact lenses out if you can. Then fresh air.',
  swallowed: 'Rinse the mouth. Do not bring on vomiting.',
  breathed: 'Out into fresh air now, and rest.',
  skin: 'Take off what is soaked; rinse the skin with water now.',
  wound:
    'Rinse the wound with clean water, cover it, and keep every bath off it. If it bleeds hard, call the emergency number.',
  animal: 'Keep it from what it got, and call a vet now, with the name of the bath.',
};
/** It was not said where. */
const anyAid =
  'On skin or in an eye: rinse with water now, and keep rinsing. From fumes: out into fresh air.';
export const thenCall = 'Follow the safety data sheet; call your poison centre or emergency number.';
export const sayAid = aidIn({ first: firstAid, unsaid: anyAid, thenCall });

/** Those that go together are one sentence for the ear. */
const together: readonly { ids: readonly CautionId[]; say: string }[] = [
  {
    ids: ['gloves', 'eyes', 'ventilation'],
    say: 'Wear gloves and eye protection, and keep the room aired.',
  },
  {
    ids: ['acid-ferricyanide', 'acid-apart'],
    say: 'Keep acid away from ferricyanide, sulphite and metabisulphite.',
  },
];

export function sayCautions(ids: readonly CautionId[]): string {
  const groups = together.filter((group) => group.ids.every((id) => ids.includes(id)));
  const sentences = ids.map((id) => groups.find((g) => g.ids.includes(id))?.say ?? cautions[id]);
  return [...new Set(sentences)].join(' ');
}
