import { type PhrasesOf, phraseOf } from '../../phrases.js';
import { list, spokenTemp, spokenVolume } from './units.js';
import type { WarmDoubt, WarmItem, WarmMessage, WarmPour, WarmReady, WarmSubject } from './warm-message.js';
import { about, aboutTime, capital, degrees, mostly, named, range } from './warm-words.js';

/** The words of one message: short, spoken to wet hands; reckoned values are never put as readings. */
export const phraseWarm = (m: WarmMessage): string => phraseOf(phrases, m, 'id');

function afterReading(item: WarmItem): string {
  const { ready, aim } = item;
  if (ready.state === 'no-aim' || aim === null) return 'Noted.';
  if (item.read === 'near') return 'Off by no more than a thermometer can be.';
  if (item.read === 'in') {
    return ready.state === 'in' && ready.leavesInS !== null && ready.leavesInS < 1800
      ? stays(ready.leavesInS)
      : 'In tolerance.';
  }
  // in the tank it works on the film: what that does is the run's to say
  if (item.subject.vessel?.kind === 'tank') return `Aim ${degrees(aim.aimC)}.`;
  return item.read === 'hot' && ready.state === 'coming'
    ? `Too warm: let it cool, out of the tub. ${outlook(item)}`
    : outlook(item);
}

const stays = (seconds: number): string =>
  seconds < 60 ? 'In tolerance, but not for long.' : `In tolerance for about ${aboutTime(seconds)}.`;

/** What is ahead of one bath, in half a sentence or two. */
function outlook(item: WarmItem): string {
  const r = item.ready;
  switch (r.state) {
    case 'no-aim':
      return '';
    case 'in':
      return r.leavesInS !== null && r.leavesInS < 3600 ? stays(r.leavesInS) : 'In tolerance.';
    case 'coming':
      return `${range(r)}.`;
    case 'never':
      return `It ${wontReach(r)}.`;
  }
}

function question(subject: WarmSubject, heardC: number, doubt: WarmDoubt): string {
  const heard = degrees(heardC);
  switch (doubt.why) {
    case 'which':
      return `Which is at ${heard}? Say the bath, or the tub.`;
    case 'impossible':
      return doubt.meantC === null
        ? `I heard ${heard} for ${named(subject, 'the')}. That cannot be. Read it again, or say cancel.`
        : `I heard ${heard} for ${named(subject, 'the')}. Did you mean ${degrees(doubt.meantC)}? Confirm or cancel.`;
    case 'fahrenheit':
      return `${heard} sounds like Fahrenheit. Is ${named(subject, 'the')} at ${spokenTemp(doubt.meantC)} Celsius? Confirm or cancel.`;
    case 'not-a-room':
      return `${heard} for the room?${doubt.fits ? ` It would suit ${named(doubt.fits, 'the')}.` : ''} Confirm, or cancel and say what it was.`;
    case 'other-vessel':
      return `I expected about ${degrees(doubt.expectedC)} in ${named(subject, 'the')}. ${heard} would suit ${named(doubt.fits, 'the')}. Is it ${named(subject, 'the')}? Confirm or cancel.`;
    case 'unlikely':
      return doubt.meantC === null
        ? `I heard ${heard} for ${named(subject, 'the')}, and a bath is hardly ever that. Is it right? Confirm or cancel.`
        : `I heard ${heard} for ${named(subject, 'the')}. Did you mean ${degrees(doubt.meantC)}? Confirm, or say it again.`;
    case 'unexpected':
      return `I expected about ${degrees(doubt.expectedC)} in ${named(subject, 'the')}. Is ${heard} right? Confirm or cancel.`;
  }
}

function all(m: Extract<WarmMessage, { id: 'warm-all' }>): string {
  const unread = m.items.filter((i) => i.readAgoS === null);
  const read = m.items.filter((i) => i.readAgoS !== null);
  const others = read.filter((i) => i !== m.last);
  if (others.length > 1 && unread.length === 0 && read.every((i) => i.ready.state === 'in')) {
    return 'Everything should be in tolerance.';
  }
  const parts = [...grouped(others)].map(([words, items]) => `${capital(list(items.map(bare)))} ${words}.`);
  if (m.last?.ready.state === 'coming') {
    parts.push(
      `${others.length > 0 ? 'Last, t' : 'T'}he ${bare(m.last)}: ${lowerFirst(range(m.last.ready))}.`,
    );
  }
  if (unread.length > 0) parts.push(`No reading yet of ${list(unread.map((i) => named(i.subject, 'the')))}.`);
  if (m.read) parts.push(`Read ${named(m.read.subject, 'the')} in ${aboutTime(m.read.inS)}.`);
  return parts.join(' ');
}

const bare = (item: WarmItem): string => named(item.subject);

/** Baths of which the same can be said, in order of what is said first: "bleach and fixer: about 6 minutes". */
function grouped(items: readonly WarmItem[]): Map<string, WarmItem[]> {
  const groups = new Map<string, WarmItem[]>();
  const put = (words: string, item: WarmItem): void => {
    groups.set(words, [...(groups.get(words) ?? []), item]);
  };
  for (const i of items) {
    const r = i.ready;
    if (r.state === 'in') put(r.sinceS >= 60 ? `ready for ${aboutTime(r.sinceS)}` : 'ready', i);
    else if (r.state === 'coming') put(lowerFirst(about(r.inS)), i);
    else if (r.state === 'never') put(wontReach(r), i);
  }
  return groups;
}

const wontReach = (r: Extract<WarmReady, { state: 'never' }>): string =>
  r.from === 'below'
    ? `will not reach ${degrees(r.aimC)} as things stand`
    : `will stay too warm as things stand`;

function one(item: WarmItem, pour: WarmPour | null): string {
  const name = named(item.subject);
  if (item.readAgoS === null)
    return `I have no reading of ${named(item.subject, 'the')}. Read it and tell me.`;
  const at = `about ${degrees(item.tempC)}, read ${ago(item.readAgoS)}`;
  const r = item.ready;
  if (r.state === 'no-aim') return `${capital(name)} is at ${at}. It has no aim on the sheet.`;
  if (item.fresh) {
    return `Yes. ${capital(name)} ${degrees(item.lastReadC ?? item.tempC)}, read ${ago(item.readAgoS)}.${pour ? ` ${pourWords(pour)}` : ''}`;
  }
  if (r.state === 'in') {
    const tail = pour ? ` ${pourWords(pour)}` : '';
    return r.sure
      ? `Yes. ${capital(name)} ${at}.${tail}`
      : `It should be: ${name} ${at}. Read it to be sure.${tail}`;
  }
  return `Not yet. ${capital(name)} ${at}. ${outlook(item)}`;
}

const pourWords = (p: WarmPour): string =>
  p.prewarm
    ? `The tank will take about ${degrees(p.lossC)}. Warm the tank first.`
    : `The tank will take about ${degrees(p.lossC)}. Pour at ${degrees(p.pourC)}.`;

function reckoned(item: WarmItem): string {
  if (item.readAgoS === null)
    return `I have no reading of ${named(item.subject, 'the')}. Read it and tell me.`;
  // what was read this minute is said as it was read
  if (item.readAgoS <= 60 && item.lastReadC !== null)
    return `${capital(named(item.subject))} ${degrees(item.lastReadC)}, read ${ago(item.readAgoS)}.${item.read === 'hot' ? ' Too hot.' : item.read === 'cold' ? ' Too cold.' : ''}`;
  const read = item.readBeforeC === undefined ? '' : ` at ${degrees(item.readBeforeC)} before it was poured,`;
  return `${capital(named(item.subject))} should be about ${degrees(item.tempC)}, give or take ${item.halfBandC.toFixed(1)}. Read${read} ${ago(item.readAgoS)}.`;
}

function tubSet(m: Extract<WarmMessage, { id: 'warm-tub-set' }>): string {
  const when =
    m.inS === null ? '' : m.inS < 60 ? ' It is about there.' : ` About ${aboutTime(m.inS)} to get there.`;
  const hot = m.hot ? ` Or add ${spokenVolume(m.hot.addMl)} of hot water at ${degrees(m.hot.hotC)} now.` : '';
  return `Tub set to ${degrees(m.setC)}.${when}${hot}`;
}

function setPoint(m: Extract<WarmMessage, { id: 'warm-set-point' }>): string {
  const needs = `${named(m.subject, 'the')} needs ${degrees(m.aimC)}`;
  if (m.verdict === 'slow') {
    const taken =
      m.assumed && m.from === 'sheet'
        ? `I take the tub to warm to ${degrees(m.setC)}; tell me what it is set to. `
        : '';
    return `${taken}With the tub at ${degrees(m.holdsC)}, the last tenths of ${named(m.subject, 'the')} take very long. Set it to ${degrees(m.setToC)}.`;
  }
  const off = m.holdsC - m.setC;
  if (m.from === 'reading')
    return m.verdict === 'too-low'
      ? `A tub that stays at ${degrees(m.holdsC)} never gets ${named(m.subject, 'the')} to ${degrees(m.aimC)}. If it is still warming, tell me what it is set to.`
      : `A tub that stays at ${degrees(m.holdsC)} gets ${named(m.subject, 'the')} too warm. If it is cooling, tell me what it is set to.`;
  if (m.from === 'sheet') {
    const set = m.assumed ? 'I take the tub to be set' : 'The tub is set';
    return m.verdict === 'too-low'
      ? `${set} to ${degrees(m.setC)}, but ${needs}. It will never get there. Set the tub to ${degrees(m.setToC)}.`
      : `${set} to ${degrees(m.setC)}, but ${needs}. Left in the tub it will get too warm. Set the tub to ${degrees(m.setToC)}.`;
  }
  const held = `By the readings the tub holds ${degrees(m.holdsC)}${Math.abs(off) >= 0.5 ? `, not ${degrees(m.setC)}` : ''}.`;
  return m.verdict === 'too-low'
    ? `${held} ${capital(needs)}. It will never get there. Turn the tub up by ${degrees(m.setToC - m.setC)}.`
    : `${held} ${capital(needs)}. It will get too warm. Turn the tub down by ${degrees(m.setC - m.setToC)}.`;
}

function heater(m: Extract<WarmMessage, { id: 'warm-heater' }>): string {
  const said = m.on ? 'Heater on.' : 'Heater off.';
  const r = m.first?.ready;
  if (!m.first || r?.state !== 'in' || r.leavesInS === null) return said;
  return `${said} ${capital(named(m.first.subject))} stays in tolerance for about ${aboutTime(r.leavesInS)}.`;
}

function rinse(m: Extract<WarmMessage, { id: 'warm-rinse' }>): string {
  const heard = `Rinse water ${degrees(m.tempC)}.`;
  if (Math.abs(m.costC) < 0.3) return `${heard} Good.`;
  return m.costC > 0
    ? `${heard} It would cool the next bath by about ${degrees(m.costC)}.`
    : `${heard} It would warm the next bath by about ${degrees(-m.costC)}.`;
}

function blendFails(m: Extract<WarmMessage, { id: 'warm-blend-fails' }>): string {
  if (m.why === 'taps-alike')
    return `Hot and cold are nearly the same. They cannot be blended to ${spokenTemp(m.aimC)}.`;
  return m.why === 'too-warm'
    ? `${spokenTemp(m.aimC)} is warmer than the hot tap at ${degrees(m.hotC)}. Heat some water.`
    : `${spokenTemp(m.aimC)} is colder than the cold tap at ${degrees(m.coldC)}. Use ice in a jug beside the bath, not in it.`;
}

function allReady(m: Extract<WarmMessage, { id: 'warm-all-ready' }>): string {
  const { last, unread, out } = m;
  const parts = [`By my reckoning the last bath, ${named(last.subject, 'the')}, is in tolerance.`];
  if (last.readAgoS === null || last.readAgoS >= 60)
    parts.push(`Read ${named(last.subject, 'the')} to be sure.`);
  if (out.length > 0) parts.push(`Out of tolerance: ${list(out.map((s) => named(s)))}.`);
  if (unread.length > 0) parts.push(`I have no reading of ${list(unread.map((s) => named(s, 'the')))}.`);
  return parts.join(' ');
}

const ago = (seconds: number): string => (seconds < 45 ? 'just now' : `${aboutTime(seconds)} ago`);

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const phrases: PhrasesOf<WarmMessage> = {
  'warm-reading': (m) =>
    [
      m.instead && `Not taking the ${degrees(m.instead.heardC)}.`,
      `${capital(named(m.item.subject))} ${degrees(m.item.tempC)}.`,
      afterReading(m.item),
      m.allReady && 'Everything is in tolerance.',
    ]
      .filter(Boolean)
      .join(' '),
  'warm-noted': (m) => `${capital(named(m.subject))} ${degrees(m.tempC)}. Noted.`,
  'warm-question': (m) =>
    (m.tooHot ? 'That would be too hot. ' : '') + question(m.subject, m.heardC, m.doubt),
  'warm-still-asking': (m) =>
    `${degrees(m.heardC)} cannot be right. Read ${named(m.subject, 'the')} again, or say cancel.`,
  'warm-dropped': (m) =>
    `Dropped. Not taking ${m.subject.liquid || m.subject.vessel ? `${degrees(m.heardC)} for ${named(m.subject, 'the')}` : `the ${degrees(m.heardC)}`}.`,
  'warm-all': all,
  'warm-one': (m) => one(m.item, m.pour),
  'warm-temperature': (m) => reckoned(m.item),
  'warm-doubted': (m) =>
    `${degrees(m.tempC)} was said of ${named(m.subject, 'the')} and never confirmed: I do not know. Read it again and tell me.`,
  'warm-unknown': (m) => `I do not know where ${named(m.subject, 'the')} is. Say which bottle holds it.`,
  'warm-nothing': () => 'No bath with an aim stands on the bench yet. Say which bottle holds what.',
  'warm-tub-set': tubSet,
  'warm-set-point': setPoint,
  'warm-heater': heater,
  'warm-moved': (m) =>
    `${capital(named(m.item.subject))} ${m.into ? 'into' : 'out of'} the tub. ${outlook(m.item)}`.trim(),
  'warm-blend': (m) =>
    m.volumeMl === null
      ? `For ${spokenTemp(m.aimC)}: ${mostly(m.hotShare)}.`
      : `${spokenVolume(m.hotMl)} hot and ${spokenVolume(m.coldMl)} cold give ${spokenTemp(m.aimC)}. Check it with the thermometer.`,
  'warm-blend-needs': (m) =>
    `Tell me how warm ${m.hot && m.cold ? 'the hot and the cold tap are' : m.hot ? 'the hot tap is' : 'the cold tap is'}.`,
  'warm-blend-fails': blendFails,
  'warm-rinse': rinse,
  'warm-curves': (m) =>
    m.any ? 'The curves are on the screen.' : 'There is nothing to draw yet. Read a bath first.',
  'warm-all-ready': allReady,
  'warm-drift': (m) =>
    `${capital(named(m.item.subject, 'the'))} should be getting too ${m.way === 'hot' ? 'warm' : 'cold'}, about ${degrees(m.item.tempC)}. ${m.way === 'hot' && m.inTub ? 'Take it out of the tub.' : 'Read it.'}`,
  'warm-take-out': (m) =>
    `At ${degrees(m.setC)} the tub gets too warm for ${list(m.subjects.map((s) => named(s, 'the')))}. Take ${m.subjects.length > 1 ? 'each' : 'it'} out when I call.`,
};
