import { type FilmStage, type FilmState, kindOfStock, stageOf } from '../world/film.js';
import { type Liquid, liquids, mayHoldFerricyanide, type Role } from '../world/liquids.js';
import type { BottleDoubt } from '../world/records.js';
import type { LiquidId } from '../world/vessel.js';
import { filmKindOf, liquidOf, type ProcessSheet } from './sheet.js';

/**
 * How bad a move is. `clear`: go ahead. `harmless`: does no good and no lasting damage. `recoverable`: can be put
 * right afterwards, needs a confirm. `ruinous`: cannot be put right or is dangerous, needs an override.
 */
export type Verdict = 'clear' | 'harmless' | 'recoverable' | 'ruinous';

export const severity: Record<Verdict, number> = { clear: 0, harmless: 1, recoverable: 2, ruinous: 3 };

/** Why, as an id; the sentence for each is in the phrases. Chemistry: common practice unless a source is given. */
export type ReasonId =
  | 'due'
  | 'water-safe'
  | 'no-film'
  | 'again'
  | 'no-use'
  | 'image-lost'
  | 'backing-already-off'
  | 'backing-in-developer'
  | 'backing-loose'
  | 'acid-before-developer'
  | 'stop-before-developer'
  | 'bleach-kills-latent'
  | 'fixer-kills-latent'
  | 'wetting-early'
  | 'prebath-late'
  | 'more-development'
  | 'water-before-stop'
  | 'developer-in-bleach'
  | 'developer-in-fixer'
  | 'acid-in-bleach'
  | 'fixer-before-bleach'
  | 'taints-bath'
  | 'redevelops'
  | 'acid-on-ferricyanide'
  | 'bleach-in-fixer'
  | 'bleach-in-developer'
  | 'nothing-to-develop'
  | 'fixer-in-developer'
  | 'fixer-in-bleach'
  | 'acid-on-fixer'
  | 'silver-left'
  | 'fixer-left'
  | 'finished-film'
  | 'washes-off-rinse'
  | 'wetting-in-developer'
  | 'prebath-in-developer'
  | 'rest-of-development'
  | 'developer-short'
  | 'bleach-takes-silver'
  | 'backing-still-on'
  | 'temperature-doubted'
  | 'film-doubted'
  | 'silver-film'
  | 'colour-film'
  | 'backed-film'
  | 'spoilt'
  | BottleDoubt
  | 'doubtful-mixture'
  | 'faulty-batch'
  | 'said-against'
  | 'spent'
  | 'too-old'
  | 'own-bottle'
  | 'empty-bottle'
  | 'other-label'
  | 'bad-bottle'
  | 'dilutes'
  | 'prebath-in-developer-bottle'
  | 'acid-ferricyanide-bottle'
  | 'acid-thiosulphate-bottle'
  | 'acid-developer-bottle'
  | 'bleach-fixer-bottle'
  | 'bleach-developer-bottle'
  | 'fixer-developer-bottle'
  | 'mixes-baths'
  | 'water-bottle'
  | 'tainted'
  | 'wash-water-back'
  | 'one-shot-back'
  | 'waste'
  | 'throws-away-good-bath'
  | 'top-up'
  | 'developer-cold'
  | 'developer-hot'
  | 'developer-was-off'
  | 'developer-long-unread'
  | 'developer-unread'
  | 'bath-cold'
  | 'too-little'
  | 'not-covered'
  | 'no-headroom'
  | 'early';

/** Mixtures that can give off a gas: the room comes before the bath. */
const gasReasons: ReadonlySet<ReasonId> = new Set<ReasonId>([
  'acid-ferricyanide-bottle',
  'acid-thiosulphate-bottle',
  'acid-developer-bottle',
]);
export const givesGas = (warn: { reason: ReasonId } | null): boolean =>
  warn !== null && gasReasons.has(warn.reason);

export type Entry = readonly [Verdict, ReasonId];

const c = (reason: ReasonId): Entry => ['clear', reason];
const h = (reason: ReasonId): Entry => ['harmless', reason];
const r = (reason: ReasonId): Entry => ['recoverable', reason];
const x = (reason: ReasonId): Entry => ['ruinous', reason];

const every = (entry: Entry): Record<Role, Entry> => ({
  'backing-remover': entry,
  developer: entry,
  stop: entry,
  bleach: entry,
  fixer: entry,
  rinse: entry,
  water: entry,
});

const latent = {
  stop: r('stop-before-developer'),
  bleach: x('bleach-kills-latent'),
  fixer: x('fixer-kills-latent'),
  rinse: r('wetting-early'),
  water: c('water-safe'),
};

/** Into the tank: what each liquid does to film in each state, nothing else clinging to it. */
export const intoTank: Record<FilmStage, Record<Role, Entry>> = {
  'no-film': every(h('no-film')),
  backed: { 'backing-remover': c('due'), developer: r('backing-in-developer'), ...latent },
  softened: { 'backing-remover': h('again'), developer: r('backing-loose'), ...latent },
  cleared: { 'backing-remover': h('backing-already-off'), developer: c('due'), ...latent },
  'part-developed': {
    'backing-remover': r('prebath-late'),
    developer: c('rest-of-development'),
    stop: r('developer-short'),
    bleach: x('developer-in-bleach'),
    fixer: r('fixer-before-bleach'),
    rinse: r('wetting-early'),
    water: c('water-safe'),
  },
  developed: {
    'backing-remover': r('prebath-late'),
    developer: x('more-development'),
    stop: c('due'),
    bleach: c('due'),
    fixer: r('fixer-before-bleach'),
    rinse: r('wetting-early'),
    water: c('water-safe'),
  },
  'silver-kept': {
    'backing-remover': r('taints-bath'),
    developer: r('nothing-to-develop'),
    stop: h('no-use'),
    bleach: c('due'),
    fixer: r('fixer-before-bleach'),
    rinse: r('silver-left'),
    water: c('water-safe'),
  },
  bleached: {
    'backing-remover': r('taints-bath'),
    developer: x('redevelops'),
    stop: h('no-use'),
    bleach: h('again'),
    fixer: c('due'),
    rinse: r('wetting-early'),
    water: c('water-safe'),
  },
  fixed: {
    'backing-remover': r('taints-bath'),
    developer: r('nothing-to-develop'),
    stop: h('no-use'),
    bleach: h('no-use'),
    fixer: h('again'),
    rinse: c('due'),
    water: c('water-safe'),
  },
  finished: { ...every(r('finished-film')), rinse: h('again'), water: h('washes-off-rinse') },
  lost: { ...every(h('image-lost')), water: c('water-safe') },
};

/** Where the silver is the picture, bleach takes it away and the fixer follows the developer. */
const silverPicture: Partial<Record<FilmStage, Partial<Record<Role, Entry>>>> = {
  'part-developed': { bleach: x('bleach-takes-silver'), fixer: r('developer-short') },
  developed: { bleach: x('bleach-takes-silver'), fixer: c('due') },
  fixed: { bleach: x('bleach-takes-silver') },
  finished: { bleach: x('bleach-takes-silver') },
};

const backingLeft: Partial<Record<Role, Entry>> = {
  'backing-remover': c('backing-still-on'),
  rinse: r('backing-still-on'),
};

/** What a liquid does to this film, nothing else clinging to it. */
export const onFilm = (film: FilmState, role: Role): Entry => {
  const stage = stageOf(film);
  // backing that was never taken off comes off at the end, before the final rinse
  const late = film.backing !== 'off' && stage === 'fixed' && backingLeft[role];
  if (late) return late;
  return (film.kind.image === 'silver' && silverPicture[stage]?.[role]) || intoTank[stage][role];
};

/**
 * What speaks against a bath only because another was left out. Whoever left that out with a yes has agreed to it: it is
 * said, and no longer in the way.
 */
export const lacking: Partial<Record<ReasonId, Role>> = {
  'backing-in-developer': 'backing-remover',
  'backing-loose': 'water',
  'fixer-before-bleach': 'bleach',
  'silver-left': 'bleach',
  'wetting-early': 'fixer',
};

type Meetings = Partial<Record<Role, Partial<Record<Role, Entry>>>>;

/** What clings to film and tank, against the next bath; the worse of this and the table above counts. */
const carriedInto: Meetings = {
  'backing-remover': { developer: r('prebath-in-developer') },
  developer: {
    'backing-remover': r('prebath-late'),
    bleach: x('developer-in-bleach'),
    fixer: r('developer-in-fixer'),
    rinse: r('taints-bath'),
    water: h('water-before-stop'),
  },
  stop: { developer: r('acid-before-developer'), bleach: r('taints-bath'), rinse: r('taints-bath') },
  bleach: {
    'backing-remover': r('taints-bath'),
    developer: x('bleach-in-developer'),
    stop: r('taints-bath'),
    fixer: r('bleach-in-fixer'),
    rinse: r('taints-bath'),
  },
  fixer: {
    'backing-remover': r('taints-bath'),
    developer: x('fixer-in-developer'),
    stop: r('acid-on-fixer'),
    bleach: r('fixer-in-bleach'),
    rinse: r('fixer-left'),
  },
  rinse: { developer: r('wetting-in-developer') },
};

const spoils = (own: Role, others: Partial<Record<Role, Entry>>): Record<Role, Entry> => ({
  ...every(x('mixes-baths')),
  water: r('water-bottle'),
  ...others,
  [own]: c('own-bottle'),
});

/** Into a bottle that holds something: [poured][held]. A mixed bottle cannot be unmixed. */
export const intoBottle: Record<Role, Record<Role, Entry>> = {
  'backing-remover': spoils('backing-remover', { developer: x('prebath-in-developer-bottle') }),
  developer: spoils('developer', {
    stop: x('acid-developer-bottle'),
    bleach: x('bleach-developer-bottle'),
    fixer: x('fixer-developer-bottle'),
  }),
  stop: spoils('stop', {
    developer: x('acid-developer-bottle'),
    fixer: x('acid-thiosulphate-bottle'),
  }),
  bleach: spoils('bleach', {
    developer: x('bleach-developer-bottle'),
    fixer: x('bleach-fixer-bottle'),
  }),
  fixer: spoils('fixer', {
    developer: x('fixer-developer-bottle'),
    stop: x('acid-thiosulphate-bottle'),
    bleach: x('bleach-fixer-bottle'),
  }),
  rinse: spoils('rinse', {}),
  water: { ...every(x('dilutes')), water: c('own-bottle') },
};

/** Where the bleach of the two is, or may be, one of ferricyanide, this goes before both tables above: [what comes][where it comes to]. */
const ferricyanide: Readonly<Record<'carriedInto' | 'intoBottle', Meetings>> = {
  carriedInto: {
    stop: { bleach: r('acid-in-bleach') },
    bleach: { stop: x('acid-on-ferricyanide') },
  },
  intoBottle: {
    stop: { bleach: x('acid-ferricyanide-bottle') },
    bleach: { stop: x('acid-ferricyanide-bottle') },
  },
};

/** What becomes of a bath poured into a bottle that holds another, whose role is not its own. */
export const intoBottleOf = (poured: Liquid, held: Liquid): Entry =>
  (withFerricyanide(poured, held) && ferricyanide.intoBottle[poured.role]?.[held.role]) ||
  intoBottle[poured.role][held.role];

/** What clings of one bath, against another; null: nothing to speak of, or the other minds it not. */
export const carriedIntoOf = (clings: Liquid, into: Liquid): Entry | null =>
  clings.role === into.role || into.tolerates?.includes(clings.role)
    ? null
    : (withFerricyanide(clings, into) && ferricyanide.carriedInto[clings.role]?.[into.role]) ||
      (carriedInto[clings.role]?.[into.role] ?? null);

const withFerricyanide = (a: Liquid, b: Liquid): boolean => mayHoldFerricyanide(a) || mayHoldFerricyanide(b);

/** To the sink: by role, when the sheet says the bath is used again. */
export const toSink = (role: Role, reusable: boolean): Entry =>
  reusable && role !== 'water' ? r('throws-away-good-bath') : c('waste');

/** Film states in which a bath that touched the film carries off something that spoils its bottle. */
const dirtyReturn: Partial<Record<FilmStage, Partial<Record<Role, Entry>>>> = {
  backed: { developer: r('backing-in-developer') },
  softened: { developer: r('backing-loose') },
};

/** Out of the tank into a bottle of its own. */
export const returned = (stage: FilmStage, role: Role): Entry =>
  dirtyReturn[stage]?.[role] ?? (role === 'water' ? r('wash-water-back') : c('own-bottle'));

/** A film that was told to be of another kind than the sheet is for; null: it is of that kind, comes to no harm, or was not told. */
export function otherFilm(stock: string | undefined, sheet: ProcessSheet): ReasonId | null {
  const [film, made] = [kindOfStock(stock), filmKindOf(sheet)];
  if (!film) return null;
  if (film.image !== made.image) return film.image === 'silver' ? 'silver-film' : 'colour-film';
  return film.backing && !made.backing ? 'backed-film' : null;
}

/** What clings to the film, against the bath that is to go in; null: nothing, or the bath minds it not. */
export function carriedEntry(film: FilmState, sheet: ProcessSheet, liquid: LiquidId): Entry | null {
  const into = liquidOf(sheet, liquid);
  const last = film.history.findLast((c) => c.role === film.carry)?.liquid;
  const clings = liquidClinging(sheet, film.carry, last);
  return clings && into ? carriedIntoOf(clings, into) : null;
}

/** The bath of a role that clings: by its name, else the sheet's own of that role, else the well-known one. */
const liquidClinging = (
  sheet: ProcessSheet,
  role: FilmState['carry'],
  id: LiquidId | undefined,
): Liquid | undefined =>
  (id === undefined ? undefined : liquidOf(sheet, id)) ??
  sheet.liquids?.find((l) => l.role === role) ??
  liquids.find((l) => l.role === role);
