import type { Kit } from '../../kit/kit';
import type { KitStrokes } from '../../kit/read-strokes';
import type { Plan } from '../../match/plan';
import type { TimedNote } from '../../match/timed-note';
import { MOST_AHEAD_US, notesOfPassage, timedNotes } from '../../match/timed-notes';
import { gridAt } from '../../phrase/model/grid';
import { assess } from '../../score/assess';
import type { Judgement } from '../../score/judge';
import { beats, type Beats } from '../../time/beats';
import { isInPlaceAt, isLostAt, type Slip } from './slip';

/**
 * A take judged against what was played: where the place was lost, the phrase is due where the player has it. Undefined
 * where it never was.
 *
 * @example followSlips({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, readStrokes([], GENERAL_MIDI), GENERAL_MIDI, []) // => undefined
 */
export function followSlips(
  plan: Plan,
  read: KitStrokes,
  kit: Kit,
  slips: readonly Slip[],
): Judgement | undefined {
  if (slips.length === 0) return undefined;
  const strokes = read.strokes.filter((_, j) => read.setAside[j] === 0);
  return assess(plan, strokes, kit, read.withoutLevel, (_, endUs) =>
    notesWhereSlipped(plan, slips, endUs),
  );
}

/** What is due up to `endUs`, the slips followed. */
function notesWhereSlipped(plan: Plan, slips: readonly Slip[], endUs: number): TimedNote[] {
  const written = timedNotes(plan, endUs);
  const inPlace = written.filter(({ timeUs }) => isInPlaceAt(slips, timeUs));
  return [...inPlace, ...slips.flatMap((slip) => movedNotes(plan, slip, endUs))].sort(
    (a, b) => a.timeUs - b.timeUs,
  );
}

/** What is due in a slip up to `endUs`: whatever the take's length, no more is laid out than that. */
function movedNotes(plan: Plan, slip: Slip, endUs: number): TimedNote[] {
  const { tempo } = plan;
  const by = shiftOf(plan, slip);
  const untilUs = Math.min(endUs, slip.toUs ?? Infinity);
  return notesOfPassage(endingWith(plan, slip.passage), slip.passage, {
    isBefore: ({ to }) => tempo.usAt(to.add(by)) < slip.fromUs,
    isAfter: ({ from }) => tempo.usAt(from.add(by)) - MOST_AHEAD_US > untilUs,
  })
    .map((due) => movedNote(plan, due, by))
    .filter(({ timeUs }) => isLostAt(slip, timeUs) && timeUs <= endUs);
}

/** The plan with nothing after a passage (0-based): who is early plays notes of it that the next one would cut. */
const endingWith = (plan: Plan, passage: number): Plan => ({
  ...plan,
  passages: plan.passages.slice(0, passage + 1),
});

const shiftOf = ({ phrase, passages }: Plan, { partials, passage }: Slip): Beats =>
  beats(partials, gridAt(phrase, passages[passage]!.layer).subdivision);

function movedNote({ tempo }: Plan, due: TimedNote, by: Beats): TimedNote {
  const { onset } = due.note;
  const to = onset.add(by);
  const timeUs = due.timeUs + tempo.usAt(to) - tempo.usAt(onset);
  return { ...due, note: { ...due.note, onset: to }, timeUs };
}
