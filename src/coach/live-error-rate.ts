/** Notes looked back on at most for what is said while playing, so that it costs no frame. Chosen, not measured. */
export const LIVE_NOTES = 400;
/**
 * At each look that has all of them: of twenty looks each has a twentieth (Bonferroni) of 1 %. What is said changes every eight bars at
 * most, and looks that far apart share so few of their notes that twenty claim about sixteen times as often as one [C]: the boundary
 * for looks that only add to each other, 0.0027 (Pocock 1977), would be 4 % in all. It is half of what a whole take has, since 400
 * notes tell little of how far strokes carry over, and the farther out a boundary lies, the more an error that is thought too
 * small crosses it. Chosen by counting claims, not measured.
 */
const FULL = 0.01 / 20;

/**
 * How often anything may be told at one look at a take that goes on in which there is nothing, 0 to 1. It grows with the square of what
 * is seen, as a rate that is spent by the third power does (Kim & DeMets 1987, Biometrika 74:149-154 [M]): early looks know least of
 * their errors.
 *
 * @param notes that the look has
 * @example [100, 400, 900].map(liveErrorRate) // => [0.00003125, 0.0005, 0.0005]
 */
export const liveErrorRate = (notes: number): number => FULL * Math.min(1, notes / LIVE_NOTES) ** 2;
