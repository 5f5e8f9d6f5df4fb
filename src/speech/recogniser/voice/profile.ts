import { z } from 'zod';

/**
 * What is known of one user's voice. Plain data, to be stored as JSON by the caller; a recogniser works without it
 * and forgets it on request.
 */
export const voiceProfileSchema = z.object({
  version: z.literal(1),
  /** tokens of the model it was learnt with; with another count it does not apply */
  tokens: z.number().int().positive(),
  /** the voice is played this much faster before it is heard; 1 leaves it as it is */
  warp: z.number().min(0.7).max(1.4),
  /** added to each token's logit */
  bias: z.array(z.number()),
  /** how many recordings it was learnt from */
  recordings: z.number().int().nonnegative(),
});

export type VoiceProfile = z.infer<typeof voiceProfileSchema>;

/** Reads a stored profile. @returns the profile, or one clear sentence why it cannot be used */
export function readVoiceProfile(content: unknown, tokens: number): VoiceProfile | string {
  const parsed = voiceProfileSchema.safeParse(content);
  if (!parsed.success)
    return 'The stored voice profile is damaged; delete it and run "tankside teach" again.';
  if (parsed.data.tokens !== tokens || parsed.data.bias.length !== tokens)
    return 'The stored voice profile belongs to another voice model; run "tankside teach" again.';
  return parsed.data;
}

/** Plays sound faster (rate above 1: higher, shorter) by cubic interpolation. */
export function warped(pcm: Float32Array, rate: number): Float32Array {
  if (rate === 1) return pcm;
  const out = new Float32Array(Math.floor(pcm.length / rate));
  for (let i = 0; i < out.length; i++) {
    const at = i * rate;
    const k = Math.floor(at);
    const f = at - k;
    const a = pcm[k - 1] ?? 0;
    const b = pcm[k] ?? 0;
    const c = pcm[k + 1] ?? 0;
    const d = pcm[k + 2] ?? 0;
    out[i] = b + 0.5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)));
  }
  return out;
}
