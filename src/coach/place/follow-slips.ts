import type { Kit } from '../../kit/kit';
import type { KitStrokes } from '../../kit/read-strokes';
import { DEFAULT_REACH_MS } from '../../match/hit-window';
import type { Plan } from '../../match/plan';
import type { TimedNote } from '../../match/timed-note';
import { timedNotes } from '../../match/timed-notes';
import { layerShape } from '../../phrase/layers/layer-shape';
import { assessNotes } from '../../score/assess';
import type { Judgement } from '../../score/judge';
import { isLostAt, type Slip } from './slip';

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
  const lastUs = strokes.reduce((last, { timeUs }) => Math.max(last, timeUs), -Infinity);
  const endUs = lastUs + (plan.windows.reachMs ?? DEFAULT_REACH_MS) * 1000;
  return assessNotes(plan, notesWhereSlipped(plan, slips, endUs), strokes, kit, read.withoutLevel);
}

/** What is due up to `endUs`, the slips followed. */
function notesWhereSlipped(plan: Plan, slips: readonly Slip[], endUs: number): TimedNote[] {
  const earliest = Math.min(0, ...slips.map(({ partials }) => partials));
  const longestUs = Math.max(
    ...plan.passages.map(
      ({ layer }) =>
        (layerShape(plan.phrase, layer).partialBeats.valueOf() * 60e6) / slowestBpm(plan),
    ),
  );
  const written = timedNotes(plan, endUs - earliest * longestUs);
  const inPlace = written.filter(({ timeUs }) => !slips.some((slip) => isLostAt(slip, timeUs)));
  const moved = slips.flatMap((slip) =>
    written
      .filter(({ passage }) => passage === slip.passage)
      .map((due) => movedNote(plan, due, slip.partials))
      .filter(({ timeUs }) => isLostAt(slip, timeUs)),
  );
  return [...inPlace, ...moved]
    .filter(({ timeUs }) => timeUs <= endUs)
    .sort((a, b) => a.timeUs - b.timeUs);
}

function movedNote({ phrase, tempo }: Plan, due: TimedNote, partials: number): TimedNote {
  const { onset } = due.note;
  const to = onset.add(layerShape(phrase, due.layer).partialBeats.mul(partials));
  const timeUs = due.timeUs + tempo.usAt(to) - tempo.usAt(onset);
  return { ...due, note: { ...due.note, onset: to }, timeUs };
}

const slowestBpm = ({ tempo }: Plan): number => Math.min(...tempo.changes.map(({ bpm }) => bpm));
