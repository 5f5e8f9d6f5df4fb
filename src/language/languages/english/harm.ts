import type { Exposure } from '../../../chemistry/index.js';
import type { Intent } from '../../../process/intent.js';
import type { Grammars } from '../../load.js';
import { asIntent } from '../../meaning/schema.js';
import { BODY, FIRE, howsHurt, ON_SOMEBODY } from './lists.js';
import { aboutMatter } from './matter.js';
import { normaliseTyped } from './typed.js';

/** What a line tells of fire and of people who are hurt, and what else stands beside it, in its own words. */
export interface Harm {
  intent: Intent;
  beside: string;
}

/**
 * A fire, who lies there, and every place of a body that a line names: that comes first, whatever else is told in the same
 * breath ("water in, ouch it splashed in my eye", "60 ml went on the floor and some on my foot"). Undefined: nothing of it,
 * or one place and nothing else, which other readers take with what it was and how much.
 */
export function harmTold(line: string, grammars: Grammars): Harm | undefined {
  const plain = normaliseTyped(line);
  if (FIRE.test(plain)) {
    const fire = asIntent('ask-advice', { topic: 'fire' });
    return fire && { intent: fire, beside: '' };
  }
  if (SUPPOSES.test(plain)) return undefined;
  const hows = new Set<Exposure>();
  const beside: string[] = [];
  let open = false;
  for (const said of line.split(CLAUSES).filter((c) => /\w/.test(c))) {
    const clause = normaliseTyped(said).replace(CRIES, '');
    const hurts = hurtIn(clause, open, grammars);
    for (const how of hurts) hows.add(how);
    if (hurts.length === 0) beside.push(said);
    open = hurts.length > 0 || SPILLED.test(clause);
  }
  const [how, ...also] = hows;
  if (how === undefined || (also.length === 0 && beside.length === 0 && !ALONE.has(how))) return undefined;
  const intent = asIntent('hurt', { how, ...(also.length > 0 && { also }) });
  return intent && { intent, beside: beside.join(', ') };
}

/** How a clause says that somebody is hurt; `open`: the one before told of something spilled or of somebody hurt. */
function hurtIn(clause: string, open: boolean, grammars: Grammars): Exposure[] {
  if (DENIES.test(clause)) return [];
  const hows = howsHurt(clause);
  const [how] = hows;
  if (how === undefined) return [];
  if (how === 'collapsed' || how === 'breathless') return hows;
  if (open && MORE_OF_IT.test(clause)) return hows;
  const meant = aboutMatter(clause, grammars);
  if (meant?.kind !== 'understood') return [];
  const { intent } = meant;
  const hurt = intent.type === 'hurt' || (intent.type === 'spill' && ON_SOMEBODY.has(intent.place ?? ''));
  return hurt ? hows : [];
}

/** Told by one clause alone, no other reader has as much of them. */
const ALONE: ReadonlySet<Exposure> = new Set(['collapsed', 'breathless', 'wound', 'animal']);
const CLAUSES = /(?<=[,;.!?])\s+|\s+-+\s+|\s+(?:and|but|then|because|cos|so|while)\s+/i;
const CRIES = /^(?:(?:ouch|ow|oh|no|god|help|shit|damn|hell|oops|aah*|argh|quick|quickly|and|also|now) )+/;
const SUPPOSES =
  /^(?:if|what if|what happens|when|can|could|would|may|should|is|are|does|do|will)\b|\bif\b|\bin case\b/;
const DENIES =
  /\b(?:almost|nearly|nobody|no one|never|no longer burn\w*)\b|\b(?:not|n't|nothing|none)\b(?! (?:breath|respond|wak|see\b|stop))/;
const SPILLED = /\b(?:spill\w*|spilt|splash\w*|went|got|dripped|ran|leaked|tipped|sprayed|flew)\b/;
/** A further place of what was told before it: "some on my foot", "my leg", "his eyes too". */
const MORE_OF_IT = new RegExp(
  `^(?:(?:some|a bit|a little|a few drops|drops|the rest|it|more|most|splashes)(?: of it)? )?(?:(?:went|got|ran|is|landed|splashed) )?(?:(?:all )?(?:in|into|on|onto|over|down) )?(?:(?:my|his|her|their|the|both|left|right|bare|one|whole) )*(?:${BODY})(?: (?:too|also|as well|now))*$`,
);
