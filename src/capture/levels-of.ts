import { LEVELS, type Level } from '../phrase/level';
import type { ConsensusNote } from './consensus';
import { findLevels } from './level-clusters';

export interface NoteLevels {
  /** One a note. */
  readonly levels: readonly Level[];
  readonly confidence: number;
  readonly sentence: string;
}

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
  const counts = LEVELS.map((level) => [levels.filter((l) => l === level).length, level] as const);
  const sentence = counts
    .filter(([count]) => count > 0)
    .map(([count, level]) => `${count} ${level}${count === 1 ? '' : 's'}`)
    .join(', ');
  return { levels, confidence, sentence };
}
