import type { PlayedStroke } from './played-stroke';

/** A stroke that comes again is not farther than this from one cycle later. Chosen: four times a usual spread. */
const NEAR_US = 50_000;
/** Of the strokes that could come again, so many do at least. Chosen: half would do for a sloppy player. */
const LEAST = 1 / 3;

/**
 * Whether strokes in time order come again a cycle later, on the same voice, or are one long round in which a
 * cycle was seen by chance.
 *
 * @example comesRound([0, 500000, 1000000].map((timeUs) => ({ timeUs, voice: 'snare', velocity: 80 })), 500000) // => true
 */
export function comesRound(strokes: readonly PlayedStroke[], cycleUs: number): boolean {
  const lastUs = (strokes.at(-1)?.timeUs ?? 0) - cycleUs + NEAR_US;
  let could = 0;
  let did = 0;
  let from = 0;
  for (const { timeUs, voice } of strokes) {
    if (timeUs > lastUs) break;
    could++;
    const dueUs = timeUs + cycleUs;
    while (strokes[from]!.timeUs < dueUs - NEAR_US) from++;
    for (let i = from; i < strokes.length && strokes[i]!.timeUs <= dueUs + NEAR_US; i++)
      if (strokes[i]!.voice === voice) {
        did++;
        break;
      }
  }
  return could > 0 && did >= could * LEAST;
}
