import type { TimedNote } from '../timeline';
import { tempoFor, type Hazard } from './hazard';
import { PLACES, placesApart } from './places';

/** How fast a stick or a foot goes from voice to voice at most, on average. Chosen, not measured. */
export const METRES_PER_SECOND = 4;

/** How far right of the right hand the left may play: hi-hat over snare is everyday. Chosen, not measured. */
const EVERYDAY_CROSSING_METRES = 0.35;

/** Strokes of both hands closer than this are played with both arms in place. Chosen, not measured. */
const IN_PLACE_SECONDS = 0.15;

/** Where a limb has to be on another voice sooner than it gets there. */
export function moveHazards(strokes: readonly TimedNote[]): Hazard[] {
  const hazards: Hazard[] = [];
  for (let i = 1; i < strokes.length; i++) {
    const from = strokes[i - 1]!;
    const to = strokes[i]!;
    const seconds = placesApart(from.voice, to.voice) / METRES_PER_SECOND;
    if (seconds === 0) continue;
    const aboveBpm = tempoFor(to.beat - from.beat, seconds);
    hazards.push({ code: 'MOVE', limb: to.limb, notes: [from, to], aboveBpm });
  }
  return hazards;
}

/** Where the right hand plays far to the left of the left hand, together or at once after one another. */
export function crossedHands(notes: readonly TimedNote[]): Hazard[] {
  const hazards: Hazard[] = [];
  let right: TimedNote | undefined;
  let left: TimedNote | undefined;
  for (const note of notes) {
    if (note.limb === 'R') right = note;
    else if (note.limb === 'L') left = note;
    else continue;
    if (!right || !left) continue;
    const crossing = PLACES[left.voice].x - PLACES[right.voice].x;
    if (crossing <= EVERYDAY_CROSSING_METRES) continue;
    const aboveBpm = tempoFor(Math.abs(right.beat - left.beat), IN_PLACE_SECONDS);
    hazards.push({ code: 'CROSSED', limb: 'R', notes: [right, left], aboveBpm });
  }
  return hazards;
}
