import { median } from 'simple-statistics';
import type { LevelBoundaries } from '../../kit/kit';
import type { Plan } from '../../match/plan';
import type { Judgement } from '../../score/judge';
import { isTimed } from '../../score/figures';
import { justNoticeableMs } from '../just-noticeable';
import { causesOf, type CauseClass } from './causes';
import { contrastVariances, togethernessOf } from './togetherness';
import { unitsOf, type Units } from './units';

/** What every look at a take rests on: one layer's notes, judged beside the course that was played. */
export interface Evidence {
  readonly plan: Plan;
  /** 1-based. */
  readonly layer: number;
  readonly judgement: Judgement;
  readonly classes: readonly CauseClass[];
  readonly units: Units;
  /** Of each note in ms, early negative; NaN where none is told. */
  readonly offsets: Float64Array;
  /** Variance that each class's contrast would have, in terms of one offset's, as the strokes of the take go together. */
  readonly expected: readonly number[];
  /** Half-width of "in time", ms. */
  readonly toleranceMs: number;
  /** Smallest difference in time worth telling at this density of strokes, ms. */
  readonly noticeableMs: number;
  readonly boundaries: (pad: number) => LevelBoundaries;
  /** How often anything at all may be told of a take in which there is nothing, 0 to 1. */
  readonly errorRate: number;
}

/** The evidence in the judged notes of one layer (1-based). */
export function evidenceOf(
  plan: Plan,
  layer: number,
  judgement: Judgement,
  boundaries: Evidence['boundaries'],
  errorRate: number,
): Evidence {
  const { notes } = judgement;
  const dues = notes.map(({ due }) => due);
  const units = unitsOf(dues);
  const offsets = Float64Array.from(
    notes.map((note) =>
      isTimed(note) && note.due.note.graceStep === 0 ? note.offsetUs! / 1000 : NaN,
    ),
  );
  const classes = causesOf(
    plan.phrase,
    layer,
    dues.map(({ note }) => note),
  );
  const together = togethernessOf(offsets, dues);
  const varianceOf = contrastVariances(offsets, units, dues, together);
  return {
    plan,
    layer,
    judgement,
    classes,
    units,
    offsets,
    expected: classes.map(({ group, rest }) => varianceOf(group, rest)),
    toleranceMs: notes.length > 0 ? median(dues.map(({ toleranceUs }) => toleranceUs)) / 1000 : 0,
    noticeableMs: justNoticeableMs(intervalMs(dues)),
    boundaries,
    errorRate,
  };
}

/** Usual time between successive strokes of the written phrase, ms. */
function intervalMs(dues: readonly { readonly timeUs: number }[]): number {
  const gaps = dues.slice(1).map((due, i) => due.timeUs - dues[i]!.timeUs);
  const apart = gaps.filter((gap) => gap > 0);
  return apart.length > 0 ? median(apart) / 1000 : 0;
}
