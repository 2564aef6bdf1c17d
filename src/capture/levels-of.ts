import { LEVELS, type Level } from '../phrase/model/level';
import type { ConsensusNote } from './consensus';
import { findLevels } from './level-clusters';
import { countOf } from '../words/words';

export interface NoteLevels {
  /** One a note. */
  readonly levels: readonly Level[];
  readonly confidence: number;
  readonly sentence: string;
}

/** A note whose strokes agree less than this has perhaps two levels in turn. Chosen, not measured. */
const DOUBTFUL_BELOW = 0.8;

/** The levels of notes, voice by voice, as sure as the least sure voice. */
export function levelsOf(notes: readonly ConsensusNote[]): NoteLevels {
  const levels = notes.map((): Level => 'tap');
  let confidence = 1;
  for (const voice of new Set(notes.map((note) => note.voice))) {
    const indices = notes.flatMap((note, i) => (note.voice === voice ? [i] : []));
    const found = findLevels(indices.map((i) => notes[i]!.velocity));
    found.levels.forEach((level, k) => (levels[indices[k]!] = level));
    confidence = Math.min(confidence, found.confidence);
  }
  const least = notes.reduce((low, { evenness }) => Math.min(low, evenness), 1);
  confidence = Math.min(confidence, least < DOUBTFUL_BELOW ? least / 2 : 1);
  const counts = LEVELS.map((level) => [levels.filter((l) => l === level).length, level] as const);
  const sentence = counts
    .filter(([count]) => count > 0)
    .map(([count, level]) => countOf(count, level))
    .join(', ');
  return { levels, confidence, sentence };
}
