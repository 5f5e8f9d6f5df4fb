import { performance } from 'node:perf_hooks';
import { howToGetPlayer } from '../speech/ears/recorders.js';
import { Mouth, type MouthEvent } from '../speech/mouth/mouth.js';
import { availablePlayers, type Player } from '../speech/mouth/player.js';
import { availableVoices, findVoice } from '../speech/mouth/voices.js';
import { Refusal } from './exit.js';

export interface MouthSetup {
  mouth: Mouth;
  /** how it speaks, or one line that says what is missing and which package brings it */
  notice: string;
}

/** The best voice and player of this machine; `voice` chooses one by id. @throws Refusal for an unknown voice */
export function openMouth(options: {
  silent: boolean;
  voice?: string;
  /** which speaker, as the sound system names it; its own choice when null */
  speaker?: string | null;
  /** chooses another player than the computer's own, anew for each sentence */
  through?(own: Player | null): Player | null;
  onEvent(event: MouthEvent): void;
}): MouthSetup {
  const now = () => performance.now();
  if (options.silent) {
    const mouth = new Mouth({ voice: null, player: null, now, onEvent: options.onEvent });
    return { mouth, notice: 'Text only, as asked.' };
  }
  const voice = options.voice ? findVoice(options.voice) : (availableVoices()[0] ?? null);
  if (options.voice && !voice) {
    const known = availableVoices().map((v) => v.id);
    throw new Refusal(`There is no voice “${options.voice}” here. Choose one of: ${known.join(', ')}.`);
  }
  const player = availablePlayers(undefined, options.speaker ?? null)[0] ?? null;
  const { through } = options;
  const mouth = new Mouth({
    voice,
    get player() {
      return through ? through(player) : player;
    },
    now,
    onEvent: options.onEvent,
  });
  const notice = player
    ? `I speak with ${voice?.label ?? 'no voice'} through ${player.id}.`
    : howToGetPlayer();
  return { mouth, notice };
}
