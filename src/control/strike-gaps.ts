/**
 * Strikes in a row that give a command are this far apart, integer microseconds, edges closed. Chosen, not measured.
 * Nearer than the least are: the second stroke of a double trigger (a kit may ask for 100 ms of it), the grace notes of
 * flams and drags (30 and 60 ms ahead here), a stick that bounces on by itself. The most is a quick but easy pace, eighths
 * at 100: strokes that are farther apart are those of a slow phrase.
 */
export const LEAST_GAP_US = 130_000;
export const MOST_GAP_US = 300_000;
/** The longer of two gaps in a row is at most so many times the shorter. Chosen, not measured. */
export const MOST_UNEVEN = 1.6;
/** What comes nearer on the same pad belongs to the strike before: it bounces, or is a grace note. Chosen, not measured. */
export const SAME_STRIKE_US = 70_000;

/**
 * So many faults of a player in a row make up no command: strays, strokes on the wrong pad or struck twice. Chosen, not
 * measured: with one fewer, one in a hundred takes of a sloppy player gives one (`npm run -s claims -- control`).
 */
export const FAULTS = 2;
/** Nobody counts farther with sticks in hand. Chosen, not measured. */
const MOST_STRIKES = 5;

/**
 * How many strikes in a row give a command on a pad on which a phrase may ask for `row` notes in a row, faults leading
 * over between them: one more than that and all faults; undefined where those are too many.
 *
 * @example strikesFor(0) // => 3
 */
export const strikesFor = (row: number): number | undefined => {
  const strikes = row + FAULTS + 1;
  return strikes > MOST_STRIKES ? undefined : strikes;
};
