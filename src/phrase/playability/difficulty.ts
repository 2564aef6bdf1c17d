import { LIMBS, isHand } from '../model/limb';
import type { TimelineNote } from '../layers/timeline';
import type { Motion } from './motion';
import { METRES_PER_SECOND } from './moves';
import { placesApart } from './places';
import { strokesPerBeat, SUSTAINED_PER_SECOND } from './rates';

/** What each part weighs; together 100. Chosen, not measured. */
export const DIFFICULTY_WEIGHTS = { speed: 50, travel: 20, together: 15, levels: 15 } as const;

/**
 * How much a stretch asks for: 50 speed + 20 travel + 15 together + 15 levels.
 *
 * speed: strokes a second of the busiest limb over the 7 that a limb keeps up; travel: metres a second of the hand
 * that travels most over the 4 it can go; together: share of the moments in which two limbs or more strike; levels:
 * share of a limb's strokes at another level than its stroke before. Speed and travel grow with the tempo, so the
 * figure does; 0 asks for nothing, 100 is all of it at the limit, and it may go beyond.
 */
export function difficultyOf({ notes, strokesByLimb }: Motion, bpm: number): number {
  const beatsPerSecond = bpm / 60;
  const first = notes[0];
  if (!first) return 0;
  const seconds = (notes.at(-1)!.beat - first.beat) / beatsPerSecond;
  const speed =
    (Math.max(...strokesByLimb.map(strokesPerBeat)) * beatsPerSecond) / SUSTAINED_PER_SECOND;
  const metres = strokesByLimb.map((strokes, i) => (isHand(LIMBS[i]!) ? path(strokes) : 0));
  const travel = seconds > 0 ? Math.max(...metres) / seconds / METRES_PER_SECOND : 0;
  return (
    DIFFICULTY_WEIGHTS.speed * speed +
    DIFFICULTY_WEIGHTS.travel * travel +
    DIFFICULTY_WEIGHTS.together * togetherShare(notes) +
    DIFFICULTY_WEIGHTS.levels * levelChangeShare(strokesByLimb)
  );
}

const path = (strokes: readonly TimelineNote[]): number =>
  strokes.reduce(
    (sum, stroke, i) => (i === 0 ? 0 : sum + placesApart(strokes[i - 1]!.voice, stroke.voice)),
    0,
  );

function togetherShare(notes: readonly TimelineNote[]): number {
  let moments = 0;
  let together = 0;
  let previous = NaN;
  let counted = false;
  for (const { beat, graceStep } of notes) {
    if (graceStep > 0) continue;
    if (beat !== previous) {
      moments++;
      counted = false;
    } else if (!counted) {
      together++;
      counted = true;
    }
    previous = beat;
  }
  return moments > 0 ? together / moments : 0;
}

function levelChangeShare(strokesByLimb: readonly (readonly TimelineNote[])[]): number {
  let pairs = 0;
  let changes = 0;
  for (const strokes of strokesByLimb)
    for (let i = 1; i < strokes.length; i++) {
      pairs++;
      if (strokes[i]!.level !== strokes[i - 1]!.level) changes++;
    }
  return pairs > 0 ? changes / pairs : 0;
}
