/** Whether development can be pushed or pulled by a published time, and if not, why. */
export interface PushAnswer {
  offered: false;
  why: string;
  source: string;
}

/**
 * ECN-2 has no published push or pull times: its three layers answer a changed time differently, so that a picture gains
 * contrast and a cast at once. What may be said instead: expose for it. Other processes are not kept here.
 */
export const pushOf = (stops: number): PushAnswer => ({
  offered: false,
  why: `No table for a ${stops < 0 ? 'pull' : 'push'} is published for E C N two: its layers part company when the time changes. Develop as usual and correct in the scan, or try a strip of your own first.`,
  source:
    'Kodak H-24 series, “Effects of Mechanical and Chemical Variations”, whose plots are trends and not corrections, from memory',
});
