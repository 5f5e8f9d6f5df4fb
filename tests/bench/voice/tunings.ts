import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { modelsDir } from '../../../src/speech/installed.js';
import type { Examination, OpenRecogniser } from '../../../src/speech/recogniser/recogniser.js';
import {
  type DecoderSettings,
  type RejectionSettings,
  readDecoderSettings,
  readRejectionSettings,
} from '../../../src/speech/recogniser/settings.js';

/** Constants to hear under, in place of those in force. */
export interface Tuning {
  decoder?: Partial<DecoderSettings>;
  rejection?: RejectionSettings;
}

/** What --try holds: a list of tunings in JSON, or a file with one; those in force when not given. */
export function tuningsOf(option: string | undefined): Tuning[] {
  if (option === undefined) return [{}];
  return JSON.parse(option.startsWith('[') ? option : readFileSync(option, 'utf8')) as Tuning[];
}

/** What a tuning changes, for a table. */
export const tuningName = ({ decoder, rejection }: Tuning): string =>
  [decoder ? JSON.stringify(decoder).replace(/["{}]/g, '') : '', rejection ? 'refusal of its own' : '']
    .filter((part) => part !== '')
    .join(', ') || 'constants in force';

/** Hears sounds under several tunings; what is alike for all of them is done once. */
export class Trials {
  private readonly settings: Required<Tuning>[];

  /** @param tunings the first is what sound is read under while it comes */
  constructor(
    readonly recogniser: OpenRecogniser,
    private readonly tunings: readonly Tuning[],
    modelDir = join(modelsDir(), 'tankside-acoustic'),
  ) {
    const decoder = readDecoderSettings(modelDir);
    const rejection = readRejectionSettings(modelDir);
    this.settings = tunings.map((t) => ({
      decoder: { ...decoder, ...t.decoder },
      rejection: t.rejection ?? rejection,
    }));
  }

  /** The name of a set of clips under one of several tunings. */
  titled(set: string, tuning: number): string {
    return this.tunings.length > 1 ? `${set}, ${tuningName(this.tunings[tuning] ?? {})}` : set;
  }

  /** @returns what was heard under each tuning. Pieces: samples that come at once; all when not given. */
  async hear(sound: Float32Array, piece = sound.length, amongTalk = false): Promise<Examination[]> {
    const [first, ...others] = this.settings;
    if (first) this.recogniser.tune(first);
    const utterance = this.recogniser.begin(amongTalk);
    for (let at = 0; at < sound.length; at += piece) await utterance.push(sound.subarray(at, at + piece));
    const heard = [await utterance.hear()];
    for (const settings of others) {
      this.recogniser.tune(settings);
      heard.push(await utterance.hear());
    }
    return heard;
  }
}
