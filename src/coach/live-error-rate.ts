/** Notes looked back on at most for what is said while playing, so that it costs no frame. Chosen, not measured. */
export const LIVE_NOTES = 400;
/** At each look that has all of them: with about twenty looks 2 % in all (Pocock 1977, constant boundary). */
const FULL = 0.0027;

/**
 * How often anything may be told at one look at a take that goes on in which there is nothing, 0 to 1. It grows with the square of what
 * is seen, as a rate that is spent by the third power does (Kim & DeMets 1987, Biometrika 74:149-154 [M]): early looks know least of
 * their errors.
 *
 * @param notes that the look has
 * @example [100, 400, 900].map(liveErrorRate) // => [0.00016875, 0.0027, 0.0027]
 */
export const liveErrorRate = (notes: number): number => FULL * Math.min(1, notes / LIVE_NOTES) ** 2;
