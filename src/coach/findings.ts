import type { LevelBoundaries } from '../kit/kit';
import type { Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
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
import { lostPlace, type Slip } from './lost-place';
import { besideCourse } from './timing/beside-course';
import { courseOf } from './timing/course';
import { departureOf, type Departure } from './timing/departure';
import { noFault, timingFindings } from './timing/timing-findings';
import { UNIT_NOTES, unitsOf } from './evidence/units';

/** How often anything at all may be told of a take in which there is nothing. */
export const ERROR_RATE = 0.02;
/** As many as are told of a take unasked. @example MOST_FINDINGS // => 3 */
export const MOST_FINDINGS = 3;

/**
 * What a take has to say of the layer played last, most first; never empty. It is one explanation: where the player is
 * beside the click, what of the rest is late or early and why, how far it scatters, and what is missed, too loud or
 * struck elsewhere. What one cause explains is removed before the next is looked for, so that nothing is told twice.
 *
 * @param boundaries the player's level boundaries for a pad (MIDI note number)
 * @param errorRate how often anything may be told where there is nothing, 0 to 1
 * @example findings({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, { notes: [], extras: [] }, () => ({ ghostMax: 50, accentMin: 95 })).map(({ code }) => code) // => ['undecided']
 */
export function findings(
  plan: Plan,
  judgement: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
  errorRate = ERROR_RATE,
): Finding[] {
  const layer = judgement.notes.at(-1)?.due.layer ?? 1;
  const played = restrict(judgement, (due) => due.layer === layer);
  const departure = departureIn(plan, played, errorRate);
  const beside = departure ? besideCourse(played, departure, boundaries) : played;
  const slip = lostPlace(beside, boundaries);
  const kept = slip ? restrict(beside, (due) => !slippedAt(slip, due)) : beside;
  const evidence = evidenceOf(plan, layer, kept, boundaries, errorRate);
  const answered = kept.notes.filter(({ stroke }) => stroke).length;
  if (answered < UNIT_NOTES && !slip) return [noFault(evidence)];
  const found = ownNotesFirst(evidence, [
    ...timingFindings(evidence),
    ...missedNotes(evidence),
    ...levels(evidence),
    ...struckElsewhere(evidence),
    ...extraStrokes(evidence),
  ]).sort((a, b) => b.weight - a.weight);
  const first = [
    ...(departure ? [departureFinding(plan, played, departure)] : []),
    ...(slip ? [slipFinding(slip, beside)] : []),
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

function slipFinding(slip: Slip, { notes }: Judgement): Finding {
  const slipped = notes.map(({ due }) => due).filter((due) => slippedAt(slip, due));
  return finding('lost place', 1, slipped, slip);
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

const slippedAt = ({ fromUs, toUs }: Slip, { timeUs }: TimedNote): boolean =>
  timeUs >= fromUs && timeUs <= toUs;
