import type { Exposure } from '../../../chemistry/safety/first-aid.js';
import { asIntent, type Intent } from '../../../process/intent.js';
import type { Grammars } from '../../load.js';
import {
  ALARMS,
  COVERS,
  DENIES,
  HELD,
  HURT,
  HURT_BY,
  HURTS,
  MISSED,
  NEEDS_HELP,
  NOBODY_HURT,
  OF_THE_HURT,
  ROOM,
  rowsIn,
  STUFF,
  SUPPOSES,
  WAY_BACK,
  WHOM_TO_CALL,
} from './lists.js';
import { type Said, saidIn } from './matter.js';

/** What a line tells of people who are hurt, of fire and current and of the room: that comes first, whatever else it tells; `beside`: its other clauses. */
export interface Harm {
  intent: Intent;
  beside: readonly string[];
}

export function harmTold(
  plain: string,
  clauses: readonly string[],
  grammars: Grammars,
  due: readonly Intent[],
): Harm | undefined {
  const isHurt = due.some((d) => d.type === 'hurt');
  const isOut = due.some((d) => d.type === 'room');
  const told = (type: Intent['type'], fields: Record<string, unknown>, beside: readonly string[] = []) => {
    const intent = asIntent(type, fields);
    return intent && { intent, beside };
  };
  const parts = clauses.map((clause) => ({ clause, hows: howsHurt(saidIn(clause, grammars)) }));
  // a hand, and in the next clause what is on it
  const apart = parts.flatMap(({ hows }) => hows);
  const whole = apart.length > 0 ? [] : howsHurt(saidIn(plain, grammars));
  const covered = [...apart, ...whole].flatMap((how) => COVERS[how] ?? []);
  const [how, ...also] = new Set([...apart, ...whole].filter((one) => !covered.includes(one)));
  const [alarm] = rowsIn(ALARMS, plain);
  if (alarm && how !== 'alight' && how !== 'shocked')
    return told(
      'ask-advice',
      { topic: alarm },
      rest(clauses, (c) => rowsIn(ALARMS, c).length > 0),
    );
  if (how === undefined || (isHurt && HURTS.test(plain))) {
    const [about] = isHurt && !SUPPOSES.test(plain) ? rowsIn(OF_THE_HURT, plain) : [];
    if (about === 'lens') return told('hurt', { about, how: 'eye' });
    if (about) return told('hurt', { about });
  }
  if (how !== undefined) {
    const liquids = new Set(saidIn(plain, grammars).liquids.filter((id) => id !== 'water'));
    const [liquid] = liquids.size === 1 ? liquids : [];
    const supposed = SUPPOSES.test(plain) && { about: 'if' };
    return told(
      'hurt',
      { how, ...(also.length > 0 && { also }), ...(liquid && { liquid }), ...supposed },
      apart.length > 0 ? parts.filter(({ hows }) => hows.length === 0).map(({ clause }) => clause) : [],
    );
  }
  if (WHOM_TO_CALL.test(plain) && !DENIES.test(plain)) return told('hurt', { about: 'call' });
  if (NOBODY_HURT.test(plain))
    return isHurt ? told('hurt', { about: 'over' }) : told('ask-advice', { topic: 'nobody-hurt' });
  if (!isHurt && MISSED.test(plain) && !SUPPOSES.test(plain) && DENIES.test(plain))
    return told(
      'ask-advice',
      { topic: 'nobody-hurt' },
      rest(clauses, (c) => MISSED.test(c)),
    );
  const [is] = isOut && WAY_BACK.test(plain) ? ['back' as const] : rowsIn(ROOM, plain);
  return (
    is &&
    told(
      'room',
      { is },
      rest(clauses, (c) => rowsIn(ROOM, c).length > 0),
    )
  );
}

const rest = (clauses: readonly string[], is: (clause: string) => boolean): readonly string[] =>
  clauses.length > 1 && clauses.some(is) ? clauses.filter((c) => !is(c)) : [];

/** Every way that one clause tells of. */
function howsHurt({ plain, liquids }: Said): Exposure[] {
  const help = rowsIn(NEEDS_HELP, plain);
  if (help.length > 0) return help;
  const line = plain.replace(HELD, ' ').replace(/ +/g, ' ');
  if (DENIES.test(line)) return [];
  const by = STUFF.test(line) || liquids.some((id) => id !== 'water');
  return [...rowsIn(HURT, line), ...(by ? rowsIn(HURT_BY, line) : [])];
}
