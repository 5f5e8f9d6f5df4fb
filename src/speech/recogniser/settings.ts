import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

const share = z.number().min(0).max(1);

/**
 * Constants that belong to one acoustic model, kept beside it. They are chosen on development recordings that no
 * reported test uses (see tests/bench/voice-tune.ts and voice-calibrate.ts).
 */
const decoderSchema = z.object({
  /** added to the blank's logit; below 0 makes the network more talkative */
  blankBias: z.number(),
  /** natural log; no token is ever held less likely than this, so one surprise does not rule a sentence out */
  floor: z.number().negative(),
  /** natural log, added for every word */
  wordPenalty: z.number(),
  /** natural log; states this far below the best are dropped */
  beam: z.number().positive(),
  /** distinct readings kept alive in every state */
  width: z.number().int().min(1).max(16),
  /** what a natural log of the hidden Markov models' score counts beside one of the network's */
  hmmWeight: z.number().min(0),
  /** whether all alignments of a reading add up, or the best alone counts */
  sum: z.boolean(),
  /**
   * How much of the sound is replaced by what the denoiser makes of it, which takes a little of the voice along: what is left of the
   * noise hides that. The network looks for words in one mixture, the hidden Markov models in another; how well words fit is asked
   * of a third.
   */
  clean: z.object({ network: share, hmm: share, fit: share }),
  /** how far the voice reaches in a sound */
  span: z.object({
    /** dB; stretches that are so much weaker than the strongest one are somebody else, a tap or a dish put down */
    weakerDb: z.number().positive(),
    /**
     * dB for a second: the farther off, the less weak a stretch may be. The next word comes soon (310 strangers pause half a second at
     * most within a command), a noise at any time.
     */
    lessPerS: z.number().min(0),
    /** dB; still allowed after a long pause */
    farWeakerDb: z.number().positive(),
  }),
});

const rejectionSchema = z.object({
  bias: z.number(),
  weights: z.record(z.string(), z.number()),
});

export type DecoderSettings = z.infer<typeof decoderSchema>;
export type SpanSettings = DecoderSettings['span'];
export type RejectionSettings = z.infer<typeof rejectionSchema>;

/** @throws Error with one clear sentence when the file is missing or damaged */
export const readDecoderSettings = (modelDir: string): DecoderSettings =>
  read(join(modelDir, 'decoder.json'), decoderSchema);

/** @throws Error with one clear sentence when the file is missing or damaged */
export const readRejectionSettings = (modelDir: string): RejectionSettings =>
  read(join(modelDir, 'rejection.json'), rejectionSchema);

function read<T>(file: string, schema: z.ZodType<T>): T {
  let content: unknown;
  try {
    content = JSON.parse(readFileSync(file, 'utf8'));
  } catch (cause) {
    throw new Error(
      `The voice model's settings "${file}" cannot be read; restore the models folder (git checkout models).`,
      {
        cause,
      },
    );
  }
  const parsed = schema.safeParse(content);
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0];
  throw new Error(
    `The voice model's settings "${file}" are damaged: ${issue?.path.join('.')} ${issue?.message ?? ''}.`,
  );
}
