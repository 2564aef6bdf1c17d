import type { LevelBoundaries } from '../kit/kit';
import type { Plan } from '../match/plan';
import { gridAt } from '../phrase/model/grid';
import type { Judgement } from '../score/judge';
import { UNIT_NOTES } from './evidence/units';
import { extraStrokes } from './faults/extras';
import { levels } from './faults/levels';
import { missedNotes } from './faults/missed-notes';
import { ownNotesFirst } from './faults/own-notes';
import { struckElsewhere } from './faults/struck-elsewhere';
import { finding, type Finding } from './finding';
import { isLostAt, type Slip } from './place/slip';
import {
  bpmOf,
  takeEvidence,
  tellsTempo,
  type FindingsOptions,
  type TakeEvidence,
} from './take-evidence';
import type { Departure } from './timing/departure';
import { returnsOff } from './timing/returns-off';
import { noFault, timingFindings } from './timing/timing-findings';

/** As many as are told of a take unasked. @example MOST_FINDINGS // => 3 */
export const MOST_FINDINGS = 3;

/**
 * What concerns all of the notes is told before what touches a share of them. Of another tempo and a lost place more so than of
 * a layer's own notes (`ownNotesFirst`), since all else is wrong until they are mended; of a drift less.
 */
const WEIGHTS = { 'other tempo': 4, 'lost place': 3, drift: 1 } as const;

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
  options: FindingsOptions = {},
): Finding[] {
  return findingsIn(takeEvidence(plan, judgement, boundaries, options));
}

/** The same of what a take shows. */
export function findingsIn(take: TakeEvidence): Finding[] {
  const { played, lost, inPlace, departure, kept, evidence } = take;
  const { plan } = evidence;
  const answered = kept.notes.filter(({ stroke }) => stroke).length;
  if (answered < UNIT_NOTES && lost.length === 0) return [noFault(evidence)];
  const found = ownNotesFirst(evidence, [
    ...timingFindings(evidence),
    ...missedNotes(evidence),
    ...levels(evidence),
    ...struckElsewhere(evidence),
    ...extraStrokes(evidence),
    ...returnsOff(plan, played.notes, evidence.errorRate),
  ]);
  // What a few bars show of the tempo is removed, as all else would be told of it, and said where they are enough.
  const told = [
    ...(departure && tellsTempo(take) ? [departureFinding(plan, inPlace, departure)] : []),
    ...(lost.length > 0 ? [slipFinding(plan, lost, played)] : []),
    ...found,
  ].sort((a, b) => b.weight - a.weight);
  return told.length > 0 ? told : [noFault(evidence)];
}

function departureFinding(plan: Plan, { notes }: Judgement, departure: Departure): Finding {
  const { kind, slope, totalUs, isGrowing } = departure;
  const dues = notes.map(({ due }) => due);
  const clickBpm = bpmOf(plan, dues);
  if (kind === 'other tempo')
    return finding(kind, WEIGHTS[kind], dues, { playedBpm: clickBpm / (1 + slope), clickBpm });
  const bars = dues.at(-1)!.note.bar - dues[0]!.note.bar + 1;
  return finding(kind, WEIGHTS[kind], dues, { ms: totalUs / 1000, bars, isGrowing });
}

/** The longest of them. */
function slipFinding(plan: Plan, slips: readonly Slip[], { notes }: Judgement): Finding {
  const dues = notes.map(({ due }) => due);
  const slippedNotes = (slip: Slip) => dues.filter((due) => isLostAt(slip, due.timeUs));
  const longest = slips.reduce((a, b) => (slippedNotes(b).length > slippedNotes(a).length ? b : a));
  const slipped = slippedNotes(longest);
  const { note, layer } = slipped[0]!;
  return finding('lost place', WEIGHTS['lost place'], slipped, {
    partials: longest.partials,
    subdivision: gridAt(plan.phrase, layer).subdivision,
    fromBar: Math.max(1, note.bar),
    toBar: longest.toUs === undefined ? undefined : Math.max(1, slipped.at(-1)!.note.bar),
    times: slips.length,
    repeats: longest.repeats,
  });
}
