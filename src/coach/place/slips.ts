import { boundariesOf } from '../../kit/boundaries-of';
import type { Kit, LevelBoundaries } from '../../kit/kit';
import type { KitStrokes } from '../../kit/read-strokes';
import type { Stroke } from '../../kit/stroke';
import type { Plan } from '../../match/plan';
import { voiceNumber } from '../../phrase/model/voice';
import { PlaceFollower } from './place-follower';
import type { Slip } from './slip';

/**
 * Where in a take the phrase had slipped against the click, in the order of time.
 *
 * @param strokes those that count, in any order
 * @param boundaries the player's level boundaries for the pad of a stroke; undefined where it tells no level
 * @example slipsIn({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, [], () => undefined) // => []
 */
export function slipsIn(
  plan: Plan,
  strokes: readonly Stroke[],
  boundaries: (stroke: Stroke) => LevelBoundaries | undefined,
): readonly Slip[] {
  const inOrder = [...strokes].sort((a, b) => a.timeUs - b.timeUs);
  const follower = new PlaceFollower(plan);
  follower.extendTo(plan, inOrder.at(-1)?.timeUs ?? 0);
  for (const stroke of inOrder) {
    const levels = boundaries(stroke);
    follower.strike(
      stroke.timeUs,
      voiceNumber(stroke.voice),
      levels !== undefined && stroke.velocity >= levels.accentMin,
      levels !== undefined && stroke.velocity <= levels.ghostMax,
      levels !== undefined,
    );
  }
  follower.finish();
  return follower.slips;
}

/**
 * The same of a take as its kit reads it.
 *
 * @example slipsInTake({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, readStrokes([], GENERAL_MIDI), GENERAL_MIDI) // => []
 */
export function slipsInTake(plan: Plan, read: KitStrokes, kit: Kit): readonly Slip[] {
  const counted = read.strokes.filter((_, j) => read.setAside[j] === 0);
  return slipsIn(plan, counted, (stroke) =>
    read.withoutLevel.has(stroke) ? undefined : boundariesOf(kit, stroke.pad),
  );
}
