import type { TimelineNote } from '../layers/timeline';
import { tempoFor, type HazardWatch } from './hazard';
import { PLACES, placesApart } from './places';

/** How fast a stick or a foot goes from voice to voice at most, on average. Chosen, not measured. */
export const METRES_PER_SECOND = 4;

/** How far right of the right hand the left may play: hi-hat over snare is everyday. Chosen, not measured. */
const EVERYDAY_CROSSING_METRES = 0.35;

/** Strokes of both hands closer than this are played with both arms in place. Chosen, not measured. */
const IN_PLACE_SECONDS = 0.15;

/** Where a limb has to be on another voice sooner than it gets there. */
export function watchMoves(strokes: readonly TimelineNote[], watch: HazardWatch): void {
  for (let i = 1; i < strokes.length; i++) {
    const from = strokes[i - 1]!;
    const to = strokes[i]!;
    const seconds = placesApart(from.voice, to.voice) / METRES_PER_SECOND;
    if (seconds === 0) continue;
    const limit = tempoFor(to.beat - from.beat, seconds);
    if (watch.isAbove(limit)) watch.add('MOVE', to.limb, limit, [from, to]);
  }
}

/** Where the right hand plays far to the left of the left hand, together or at once after one another. */
export function watchCrossing(notes: readonly TimelineNote[], watch: HazardWatch): void {
  let right: TimelineNote | undefined;
  let left: TimelineNote | undefined;
  for (const note of notes) {
    if (note.limb === 'R') right = note;
    else if (note.limb === 'L') left = note;
    else continue;
    if (!right || !left) continue;
    const crossing = PLACES[left.voice].x - PLACES[right.voice].x;
    if (crossing <= EVERYDAY_CROSSING_METRES) continue;
    const limit = tempoFor(Math.abs(right.beat - left.beat), IN_PLACE_SECONDS);
    if (watch.isAbove(limit)) watch.add('CROSSED', 'R', limit, [right, left]);
  }
}
