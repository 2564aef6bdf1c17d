import type { LevelBoundaries } from '../kit/kit';
import { isSilentIn, type Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { gridAt } from '../phrase/model/grid';
import type { Judgement } from '../score/judge';
import { nearestNote } from '../score/nearest-note';
import { evidenceOf } from './evidence/evidence';
import { extraStrokes } from './faults/extras';
import { levels } from './faults/levels';
import { missedNotes } from './faults/missed-notes';
import { ownNotesFirst } from './faults/own-notes';
import { struckElsewhere } from './faults/struck-elsewhere';
import { finding, type Finding } from './finding';
import { justNoticeableMs } from './just-noticeable';
import { isInPlaceAt, isLostAt, type Slip } from './place/slip';
import { slipsIn } from './place/slips';
import { besideCourse } from './timing/beside-course';
import { courseOf } from './timing/course';
import { returnsOff } from './timing/returns-off';
import { departureOf, type Departure } from './timing/departure';
import { noFault, timingFindings } from './timing/timing-findings';
import { UNIT_NOTES, unitsOf } from './evidence/units';

/** How often anything at all may be told of a take in which there is nothing. */
export const ERROR_RATE = 0.02;
/** As many as are told of a take unasked. @example MOST_FINDINGS // => 3 */
export const MOST_FINDINGS = 3;

export interface FindingsOptions {
  /** How often anything may be told where there is nothing, 0 to 1. */
  readonly errorRate?: number;
  /** Where the place was lost, where that is known already. */
  readonly slips?: readonly Slip[];
}

/**
 * What a take has to say of the layer played last, most first; never empty. It is one explanation: where the player is
 * beside the click, what of the rest is late or early and why, how far it scatters, and what is missed, too loud or
 * struck elsewhere. What one cause explains is removed before the next is looked for, so that nothing is told twice.
 *
 * @param boundaries the player's level boundaries for a pad (MIDI note number)
 * @example findings({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, { notes: [], extras: [] }, () => ({ ghostMax: 50, accentMin: 95 })).map(({ code }) => code) // => ['undecided']
 */
export function findings(
  plan: Plan,
  judgement: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
  { errorRate = ERROR_RATE, slips }: FindingsOptions = {},
): Finding[] {
  const layer = judgement.notes.at(-1)?.due.layer ?? 1;
  const played = restrict(judgement, (due) => due.layer === layer);
  const lost = (slips ?? slipsOf(plan, judgement, boundaries)).filter((slip) =>
    played.notes.some(({ due }) => isLostAt(slip, due.timeUs)),
  );
  const inPlace =
    lost.length > 0 ? restrict(played, (due) => isInPlaceAt(lost, due.timeUs)) : played;
  const withClick = plan.silentBars ? restrict(inPlace, (due) => !isSilent(plan, due)) : inPlace;
  const departure = departureIn(plan, withClick, errorRate);
  const kept = departure ? besideCourse(withClick, departure, boundaries) : withClick;
  const evidence = evidenceOf(plan, layer, kept, boundaries, errorRate);
  const answered = kept.notes.filter(({ stroke }) => stroke).length;
  if (answered < UNIT_NOTES && lost.length === 0) return [noFault(evidence)];
  const found = ownNotesFirst(evidence, [
    ...timingFindings(evidence),
    ...missedNotes(evidence),
    ...levels(evidence),
    ...struckElsewhere(evidence),
    ...extraStrokes(evidence),
    ...returnsOff(plan, played.notes, errorRate),
  ]).sort((a, b) => b.weight - a.weight);
  const first = [
    ...(departure ? [departureFinding(plan, inPlace, departure)] : []),
    ...(lost.length > 0 ? [slipFinding(plan, lost, played)] : []),
  ];
  const told = [...first, ...found];
  return told.length > 0 ? told : [noFault(evidence)];
}

/** Of the error rate, what the course may use up. Chosen, not measured. */
const COURSE_SHARE = 0.3;
/** Notes from which a bar says where the player is: the course is followed bar by bar. Chosen, not measured. */
const COURSE_NOTES = 6;

function departureIn(plan: Plan, { notes, extras }: Judgement, errorRate: number) {
  const dues = notes.map(({ due }) => due).filter(({ note }) => note.graceStep === 0);
  const strokes = [...notes.flatMap(({ stroke }) => (stroke ? [stroke] : [])), ...extras];
  const course = courseOf(dues, strokes, unitsOf(dues, COURSE_NOTES));
  return departureOf(course, bpmOf(plan, dues), justNoticeableMs(0), COURSE_SHARE * errorRate);
}

const bpmOf = ({ tempo }: Plan, dues: readonly TimedNote[]): number =>
  dues.length > 0 ? tempo.bpmAt(dues.at(-1)!.note.onset) : tempo.changes[0]!.bpm;

function departureFinding(plan: Plan, { notes }: Judgement, departure: Departure): Finding {
  const { kind, slope, totalUs, isGrowing } = departure;
  const dues = notes.map(({ due }) => due);
  const clickBpm = bpmOf(plan, dues);
  if (kind === 'other tempo')
    return finding(kind, 1, dues, { playedBpm: clickBpm / (1 + slope), clickBpm });
  const bars = dues.at(-1)!.note.bar - dues[0]!.note.bar + 1;
  return finding(kind, 1, dues, { ms: totalUs / 1000, bars, isGrowing });
}

/** The longest of them. */
function slipFinding(plan: Plan, slips: readonly Slip[], { notes }: Judgement): Finding {
  const dues = notes.map(({ due }) => due);
  const slippedNotes = (slip: Slip) => dues.filter((due) => isLostAt(slip, due.timeUs));
  const longest = slips.reduce((a, b) => (slippedNotes(b).length > slippedNotes(a).length ? b : a));
  const slipped = slippedNotes(longest);
  const { note, layer } = slipped[0]!;
  return finding('lost place', 1, slipped, {
    partials: longest.partials,
    subdivision: gridAt(plan.phrase, layer).subdivision,
    fromBar: Math.max(1, note.bar),
    toBar: longest.toUs === undefined ? undefined : Math.max(1, slipped.at(-1)!.note.bar),
    times: slips.length,
    repeats: longest.repeats,
  });
}

function slipsOf(
  plan: Plan,
  { notes, extras }: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
): readonly Slip[] {
  const strokes = [...notes.flatMap(({ stroke }) => stroke ?? []), ...extras];
  const withoutLevel = new Set(
    notes.flatMap(({ stroke, levelVerdict }) =>
      levelVerdict === undefined && stroke ? stroke.pad : [],
    ),
  );
  return slipsIn(plan, strokes, ({ pad }) => (withoutLevel.has(pad) ? undefined : boundaries(pad)));
}

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
