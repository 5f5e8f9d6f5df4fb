/** a piece is about one breath; engines fail on very long texts, and a cut line goes on from a piece */
const LONGEST_CHARACTERS = 160;
/** The built-in voice works for a tenth of a second on so many: a longer first sentence is cut at its first comma after them. */
const FIRST_CHARACTERS = 18;
const FIRST_AT_MOST = 60;

/**
 * A text in pieces that are spoken one after another: at the ends of sentences, else at commas, else between words.
 * The first sentence stands alone, and of a long one its first part, so that its sound is there soon; short ones after it are
 * taken together.
 */
export function pieces(text: string): string[] {
  const sentences = text.split(/(?<=[.!?…])\s+/).flatMap((sentence) => shortEnough(sentence.trim()));
  const [first = '', ...rest] = sentences;
  const out: string[] = [];
  for (const sentence of [...firstSoon(first), ...rest]) {
    const last = out.at(-1);
    if (out.length > 1 && last && last.length + 1 + sentence.length <= LONGEST_CHARACTERS)
      out[out.length - 1] = `${last} ${sentence}`;
    else if (sentence !== '') out.push(sentence);
  }
  return out.length > 0 ? out : [text];
}

function firstSoon(sentence: string): string[] {
  const comma = /[,;:] /g;
  comma.lastIndex = FIRST_CHARACTERS;
  const at = sentence.length > FIRST_AT_MOST ? (comma.exec(sentence)?.index ?? -1) + 1 : 0;
  return at > 0 && at <= FIRST_AT_MOST ? [sentence.slice(0, at), sentence.slice(at).trim()] : [sentence];
}

function shortEnough(sentence: string): string[] {
  if (sentence.length <= LONGEST_CHARACTERS) return [sentence];
  const room = sentence.slice(0, LONGEST_CHARACTERS);
  const comma = Math.max(room.lastIndexOf(', '), room.lastIndexOf('; '), room.lastIndexOf(': '));
  const space = room.lastIndexOf(' ');
  const at = comma > LONGEST_CHARACTERS / 4 ? comma + 1 : space > 0 ? space : LONGEST_CHARACTERS;
  return [sentence.slice(0, at), ...shortEnough(sentence.slice(at).trim())];
}

/** how far back a pause is looked for, and how long it must be, s */
const LOOK_BACK_S = 1.5;
const PAUSE_S = 0.04;
/** of the loudest such stretch, as an amplitude */
const QUIET = 0.06;

/** Where to go on after being cut at `atS`: the last pause before it, else the beginning of the last second and a half. */
export function lastPause(pcm: Float32Array, sampleRate: number, atS: number): number {
  const block = Math.round(PAUSE_S * sampleRate);
  const at = Math.min(pcm.length, Math.round(atS * sampleRate));
  let peak = 0;
  for (const v of pcm) peak = Math.max(peak, Math.abs(v));
  const from = Math.max(0, at - Math.round(LOOK_BACK_S * sampleRate));
  for (let end = at; end - block >= from; end -= block >> 1) {
    let loudest = 0;
    for (let i = end - block; i < end; i++) loudest = Math.max(loudest, Math.abs(pcm[i] ?? 0));
    if (loudest < QUIET * peak) return end / sampleRate;
  }
  return from / sampleRate;
}
