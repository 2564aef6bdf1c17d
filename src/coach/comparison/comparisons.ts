import type { LevelBoundaries } from '../../kit/kit';
import type { Plan } from '../../match/plan';
import { exerciseOf } from '../../phrase/exercise/exercise';
import { targetKey } from '../../phrase/layers/target-key';
import type { Judgement } from '../../score/judge';
import type { Finding } from '../finding';
import { findingPlace } from '../finding-place';
import { findingsIn, MOST_FINDINGS } from '../findings';
import type { Slip } from '../place/slip';
import { shortText } from '../../words/words';
import { takeEvidence } from '../take-evidence';
import { openWords, otherWords, sameWords } from './comparison-words';
import { differenceOf, type Difference } from './difference';
import { readingOf } from './reading';

/** A take as it was judged. */
export interface JudgedTake {
  readonly plan: Plan;
  readonly judgement: Judgement;
  /** The player's level boundaries for a pad (MIDI note number). */
  readonly boundaries: (pad: number) => LevelBoundaries;
  /** Where the place was lost. */
  readonly slips: readonly Slip[];
}

/** What was practised in between: the key of its notes (`targetKey`) and its tempo. */
export interface PracticeBetween {
  readonly target: string;
  readonly bpm: number;
}

/** What became of something that an earlier take was told. */
export interface Comparison {
  readonly code: Finding['code'];
  readonly difference: Difference;
  readonly text: string;
}

/**
 * What has changed since an earlier take of the same notes, of what that take was told; nothing of takes of other notes. A
 * change is told where it is larger than chance, "about the same" where a halving would have shown.
 *
 * @param between what was practised since: only findings whose exercise is among it are compared; all of them where it is undefined
 * @example ((take) => comparisons(take, take))({ plan: {}, judgement: { notes: [], extras: [] }, boundaries: () => ({ ghostMax: 50, accentMin: 95 }), slips: [] }) // => []
 */
export function comparisons(
  before: JudgedTake,
  after: JudgedTake,
  between?: readonly PracticeBetween[],
): Comparison[] {
  if (keyOf(before) === undefined || keyOf(before) !== keyOf(after)) return [];
  const [then, now] = [shownBy(before), shownBy(after)];
  const tempi = [tempoOf(before), tempoOf(after)];
  const [was, is] = tempi[0] === tempi[1] ? ['', ''] : tempi;
  return findingsIn(then)
    .filter(({ drill }) => drill && !NOT_OF_NOTES.has(drill.kind))
    .filter((told) => !between || isAmong(before, told, between))
    .slice(0, MOST_FINDINGS)
    .map((told) => {
      const [reading, next] = [readingOf(then, told), readingOf(now, told)];
      const difference = reading ? differenceOf(reading, next) : 'open';
      const { code } = told;
      if (difference === 'open' || !reading || !next)
        return { code, difference, text: openWords(told) };
      const words = difference === 'other' ? otherWords : sameWords;
      const text = words(told, { figures: reading, tempo: was! }, { figures: next, tempo: is! });
      return { code, difference, text };
    });
}

/** What is no figure of the notes. */
const NOT_OF_NOTES: ReadonlySet<string> = new Set(['rig offset', 'note map']);

const lastLayer = ({ judgement }: JudgedTake) => judgement.notes.at(-1)?.due.layer;

function keyOf(take: JudgedTake): string | undefined {
  const layer = lastLayer(take);
  return layer === undefined ? undefined : targetKey(take.plan.phrase, layer);
}

const shownBy = ({ plan, judgement, boundaries, slips }: JudgedTake) =>
  takeEvidence(plan, judgement, boundaries, { slips });

/** "88", or "80 to 96" where there were several. */
function tempoOf(take: JudgedTake): string {
  const layer = lastLayer(take);
  const dues = take.judgement.notes.filter(({ due }) => due.layer === layer);
  const tempi = new Set(dues.map(({ due }) => take.plan.tempo.bpmAt(due.note.onset)));
  const ends = [Math.min(...tempi), Math.max(...tempi)].map((bpm) => shortText(bpm, 1));
  return ends[0] === ends[1] ? ends[0]! : ends.join(' to ');
}

/** Whether the exercise of a finding is among what was practised: the same notes, and at the tempo, or slower, where its advice says so of the whole. */
function isAmong(
  { plan, judgement }: JudgedTake,
  told: Finding,
  between: readonly PracticeBetween[],
): boolean {
  const place = findingPlace(plan, judgement, told);
  if (!place?.exercise) return false;
  const { layer, exercise } = place.exercise;
  const made = exercise && exerciseOf(plan.phrase, layer, exercise);
  if (made && !made.ok) return false;
  const phrase = made ? made.value.phrase : plan.phrase;
  const key = targetKey(phrase, made ? phrase.layers.length : layer);
  const isAtTempo = (bpm: number): boolean => {
    if (told.drill?.kind === 'other tempo') return bpm === place.exercise?.bpm;
    return told.drill?.kind !== 'layer slower' || bpm < place.asWritten.bpm;
  };
  return between.some(({ target, bpm }) => target === key && isAtTempo(bpm));
}
