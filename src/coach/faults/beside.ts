import type { Stroke } from '../../kit/stroke';
import type { TimedNote } from '../../match/timed-note';
import { layerShape } from '../../phrase/layers/layer-shape';
import { incompleteBeta } from '../../score/statistics/incomplete-beta';
import { nearestNote } from '../../score/nearest-note';
import { groupBy } from '../../time/group-by';
import { isMain } from '../evidence/causes';
import type { Evidence } from '../evidence/evidence';
import { partialOfBeat, partialsName } from '../evidence/partial-of-beat';
import { MIN_TIMES } from './where';

/** Notes that are due together: a stroke that answers none of them is beside all. */
interface Moment {
  readonly due: TimedNote;
  /** Half the way from the one before to the next, microseconds: a stroke in it is nearest to this one. */
  readonly widthUs: number;
  /** How many of the strokes are beside it. */
  readonly strokes: number;
}

/**
 * Beside which notes of the cycle or of the beat most of some strokes are that answer none; undefined where that is anywhere.
 * Of a stroke that answers nothing the time alone tells where it is. Told is the place that has more than half of them, and
 * of the moments that have any more than chance gives it: by the binomial tail, in as many as the error rate of takes whose
 * strokes come at any time, shared by all places (Bonferroni). Moments are counted, and not strokes, which come in bursts.
 *
 * @param extras in any order
 */
export function besideOf(
  { plan, layer, judgement: { notes }, errorRate }: Evidence,
  extras: readonly Stroke[],
): string | undefined {
  const near = extras.map((extra) => notes[nearestNote(notes, extra)]?.due.timeUs);
  const all = momentsOf(
    notes.map(({ due }) => due),
    near,
  );
  const { subdivision } = layerShape(plan.phrase, layer);
  const main = all.filter(({ due }) => isMain(due.note));
  const places = [
    ...groupBy(main, ({ due }) => `position ${due.note.position}`),
    ...groupBy(main, ({ due: { note } }) =>
      partialsName(partialOfBeat(note, subdivision), subdivision),
    ),
  ];
  let [told, level]: [string | undefined, number] = [undefined, errorRate / places.length];
  for (const [name, own] of places) {
    const strokes = sumOf(own, ({ strokes }) => strokes);
    const chance = chanceOf(own, all);
    if (strokes > extras.length / 2 && chance < level) [told, level] = [name, chance];
  }
  return told;
}

/** Notes in time order, and of each stroke when the note is due that it is beside. */
function momentsOf(dues: readonly TimedNote[], near: readonly (number | undefined)[]): Moment[] {
  const times = [...groupBy(dues, ({ timeUs }) => timeUs)];
  const beside = groupBy(near, (timeUs) => timeUs);
  return times.map(([timeUs, [due]], i) => {
    const [before, after] = [times[i - 1]?.[0] ?? timeUs, times[i + 1]?.[0] ?? timeUs];
    return {
      due: due!,
      widthUs: (after - before) / 2,
      strokes: beside.get(timeUs)?.length ?? 0,
    };
  });
}

/** That as many of the moments with strokes would be these if strokes came at any time, or beside any moment. */
function chanceOf(own: readonly Moment[], all: readonly Moment[]): number {
  const isStruck = ({ strokes }: Moment) => strokes > 0;
  const [times, of] = [own.filter(isStruck).length, all.filter(isStruck).length];
  if (times < MIN_TIMES) return 1;
  const width = ({ widthUs }: Moment) => widthUs;
  // Of few strokes the time decides which have one, of many nearly all have.
  const usual = Math.max(own.length / all.length, sumOf(own, width) / sumOf(all, width));
  // At least so many of so many: the binomial tail, DLMF 8.17.5.
  return incompleteBeta(usual, times, of - times + 1);
}

const sumOf = <T>(all: readonly T[], valueOf: (one: T) => number): number =>
  all.reduce((sum, one) => sum + valueOf(one), 0);
