import type { LevelBoundaries } from '../../kit/kit';
import { matchTake } from '../../match/match-take';
import { judge, type Judgement } from '../../score/judge';
import type { Departure } from './departure';

/**
 * A judgement as it would be had the player kept to the click: every stroke is moved by how far the course lies off there,
 * and matched anew, since strokes that have left their windows answered other notes or none. Notes that the player
 * has not come to, and strokes beyond the last note, are left out.
 */
export function besideCourse(
  { notes, extras }: Judgement,
  { shiftAt }: Departure,
  boundaries: (pad: number) => LevelBoundaries,
): Judgement {
  const played = [...notes.flatMap(({ stroke }) => (stroke ? [stroke] : [])), ...extras];
  const strokes = played
    .map((stroke) => ({ ...stroke, timeUs: Math.round(writtenTime(stroke.timeUs, shiftAt)) }))
    .sort((a, b) => a.timeUs - b.timeUs);
  const lastStrokeUs = strokes.at(-1)?.timeUs ?? -Infinity;
  const dues = notes
    .map(({ due }) => due)
    .filter((due) => due.timeUs <= lastStrokeUs + due.toleranceUs);
  const asked = notes[0]?.asked ?? { accents: false, ghosts: false };
  const withoutLevels = new Set(
    notes.flatMap(({ stroke, levelVerdict }) =>
      stroke && levelVerdict === undefined ? [stroke.pad] : [],
    ),
  );
  const judgement = judge(
    dues,
    strokes,
    matchTake(dues, strokes),
    ({ pad }) => (withoutLevels.has(pad) ? undefined : boundaries(pad)),
    () => asked,
  );
  const last = dues.at(-1);
  const endUs = last ? last.timeUs + last.reachUs : -Infinity;
  return { ...judgement, extras: judgement.extras.filter(({ timeUs }) => timeUs <= endUs) };
}

/** When something would have been due that is played at a time: the shift is told by written times. */
function writtenTime(timeUs: number, shiftAt: Departure['shiftAt']): number {
  let writtenUs = timeUs;
  // The shift changes by a tenth at most from one to the next, so each turn leaves a tenth of the error.
  for (let turn = 0; turn < 6; turn++) writtenUs = timeUs - shiftAt(writtenUs);
  return writtenUs;
}
