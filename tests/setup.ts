import fc from 'fast-check';

/** One seed for every property test, so that a commit passes or fails alike everywhere; `TANKSIDE_SEED` tries others. */
fc.configureGlobal({ seed: Number(process.env.TANKSIDE_SEED ?? 20) });
