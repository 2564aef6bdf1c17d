import type { LevelBoundaries } from '../kit/kit';
import type { Stroke } from '../kit/stroke';
import { isSilentIn, type Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import type { Judgement } from '../score/judge';
import { nearestNote } from '../score/nearest-note';
import { evidenceOf, type Evidence } from './evidence/evidence';
import { FEWEST_UNITS, unitsOf } from './evidence/units';
import { justNoticeableMs } from './just-noticeable';
import { isInPlaceAt, isLostAt, type Slip } from './place/slip';
import { slipsIn } from './place/slips';
import { besideCourse } from './timing/beside-course';
import { courseOf, type CoursePoint } from './timing/course';
import { departureOf, type Departure } from './timing/departure';

/** How often anything at all may be told of a take in which there is nothing. */
export const ERROR_RATE = 0.02;
export interface FindingsOptions {
  /** How often anything may be told where there is nothing, 0 to 1. */
  readonly errorRate?: number;
  /** Where the place was lost, where that is known already. */
  readonly slips?: readonly Slip[];
}

/** What a take shows of the layer played last. */
export interface TakeEvidence {
  readonly played: Judgement;
  /** Where the place was lost in it. */
  readonly lost: readonly Slip[];
  /** Without those stretches. */
  readonly inPlace: Judgement;
  /** Where the player is beside the click, bar by bar. */
  readonly course: readonly CoursePoint[];
  /** How that leaves the click; undefined where it does not. */
  readonly departure: Departure | undefined;
  /** What is left beside that course, with the click: all else rests on it. */
  readonly kept: Judgement;
  readonly evidence: Evidence;
}

/** The evidence of a take, with what explains all of its strokes removed. */
export function takeEvidence(
  plan: Plan,
  judgement: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
  { errorRate = ERROR_RATE, slips }: FindingsOptions = {},
): TakeEvidence {
  const layer = judgement.notes.at(-1)?.due.layer ?? 1;
  const played = restrict(judgement, (due) => due.layer === layer);
  const lost = (slips ?? slipsOf(plan, judgement, boundaries)).filter((slip) =>
    played.notes.some(({ due }) => isLostAt(slip, due.timeUs)),
  );
  const inPlace =
    lost.length > 0 ? restrict(played, (due) => isInPlaceAt(lost, due.timeUs)) : played;
  const withClick = plan.silentBars ? restrict(inPlace, (due) => !isSilent(plan, due)) : inPlace;
  const course = courseIn(withClick);
  const departure = departureOf(
    course,
    bpmOf(
      plan,
      withClick.notes.map(({ due }) => due),
    ),
    justNoticeableMs(0),
    COURSE_SHARE * errorRate,
  );
  const kept = departure ? besideCourse(withClick, departure, boundaries) : withClick;
  const evidence = evidenceOf(plan, layer, kept, boundaries, errorRate);
  return { played, lost, inPlace, course, departure, kept, evidence };
}

/** Whether a take is long enough for its tempo to be told: by the bars of its course, or as all else about time is. */
export const tellsTempo = ({ course, evidence }: TakeEvidence): boolean =>
  Math.max(course.length, evidence.units.count) >= FEWEST_UNITS;

/** Of the error rate, what the course may use up. Chosen, not measured. */
const COURSE_SHARE = 0.3;
/** Notes from which a bar says where the player is: the course is followed bar by bar. Chosen, not measured. */
const COURSE_NOTES = 6;

function courseIn(judgement: Judgement): CoursePoint[] {
  const dues = judgement.notes.map(({ due }) => due).filter(({ note }) => note.graceStep === 0);
  return courseOf(dues, strokesOf(judgement), unitsOf(dues, COURSE_NOTES));
}

/** At the end of some notes. */
export const bpmOf = ({ tempo }: Plan, dues: readonly TimedNote[]): number =>
  dues.length > 0 ? tempo.bpmAt(dues.at(-1)!.note.onset) : tempo.changes[0]!.bpm;

function slipsOf(
  plan: Plan,
  { notes, extras }: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
): readonly Slip[] {
  const withoutLevel = new Set<number>();
  for (const { stroke, levelVerdict } of notes)
    if (levelVerdict === undefined && stroke) withoutLevel.add(stroke.pad);
  return slipsIn(plan, strokesOf({ notes, extras }), ({ pad }) =>
    withoutLevel.has(pad) ? undefined : boundaries(pad),
  );
}

/** Those that answer a note, and those that answer none. */
const strokesOf = ({ notes, extras }: Judgement): Stroke[] => [
  ...notes.map(({ stroke }) => stroke).filter((stroke) => stroke !== undefined),
  ...extras,
];

function restrict({ notes, extras }: Judgement, keep: (due: TimedNote) => boolean): Judgement {
  return {
    notes: notes.filter(({ due }) => keep(due)),
    extras: extras.filter((extra) => {
      const near = notes[nearestNote(notes, extra)];
      return near !== undefined && keep(near.due);
    }),
  };
}

/** Where no click is heard nobody is held to it: what the time does there is told at its return. */
const isSilent = (plan: Plan, { note }: TimedNote): boolean => isSilentIn(plan, note.bar);
