/**
 * Evidence that faults are rarer than a threshold allows, stroke by stroke: the log likelihood ratio of Wald's
 * sequential test of a share (A. Wald, Sequential Analysis, 1947, chapter 5), which holds however often it is looked
 * at, in two points his own is not meant for:
 *
 * - Faults come in clusters, since a stumble takes the next strokes along. The ratio is divided by DISPERSION, the
 *   factor by which clusters widen the count of faults (McCullagh & Nelder, Generalized Linear Models, 2nd ed. 1989,
 *   section 4.5, from memory).
 * - What was played long ago must not be held against a player for ever. The ratio never falls below -LEEWAY, as in a
 *   cumulative sum (E. S. Page, Biometrika 41, 1954), so that a player who has become sure passes in a bounded time.
 */
export interface FaultShare {
  /** What one stroke as written adds. */
  readonly gain: number;
  /** What one fault adds; negative. */
  readonly loss: number;
}

/**
 * The variance of a count of faults that come in runs of two on average is 2.2 times that of single ones at a share of
 * 0.2, and 2.8 times at 0.05 (computed from a two-state Markov chain). Chosen between single faults and these.
 */
export const DISPERSION = 2;
/** Chosen by simulation, with DISPERSION and WRONG_PASS (`gate-options.ts`): `npm run -s claims` prints what follows. */
export const LEEWAY = 7;

/**
 * The test between two shares of faults, 0 < good < bad < 1.
 *
 * @throws RangeError when the shares are none, or in the wrong order.
 * @example faultShare(0.01, 0.1, 1).loss.toFixed(4) // => '-2.3026'
 */
export function faultShare(good: number, bad: number, dispersion = DISPERSION): FaultShare {
  if (!(good > 0 && good < bad && bad < 1))
    throw new RangeError(`expected shares with 0 < good < bad < 1, got ${good} and ${bad}`);
  return {
    gain: Math.log((1 - good) / (1 - bad)) / dispersion,
    loss: Math.log(good / bad) / dispersion,
  };
}

/**
 * The evidence after one stroke more.
 *
 * @example nextEvidence(0, false, { gain: 0.5, loss: -2 }) // => 0.5
 */
export const nextEvidence = (before: number, isFault: boolean, { gain, loss }: FaultShare) =>
  Math.max(-LEEWAY, before + (isFault ? loss : gain));
