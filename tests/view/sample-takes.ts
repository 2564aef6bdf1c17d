import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { timedNotes } from '../../src/match/timed-notes';
import type { TimedNote } from '../../src/match/timed-note';
import type { Passage } from '../../src/phrase/model/passage';
import type { Plan } from '../../src/match/plan';
import { summaryOf } from '../../src/practice/takes/take-scoring';
import type { LibraryPhrase } from '../../src/practice/library.svelte';
import { simulate, type Faults } from '../../src/take/simulate';
import type { Take } from '../../src/take/take';
import { steadyTempo } from '../../src/time/tempo';
import type { StubParts } from './stub-parts';

interface Played {
  readonly passages?: readonly Passage[];
  readonly endUs?: number;
  /** How much later than the others a note is played, ms. */
  readonly lateMs?: (due: TimedNote) => number;
}

/**
 * A phrase as somebody plays it whom the simulated player stands in for: twelve seconds of its last layer, unless it is said
 * otherwise.
 */
export function simulatedTake(
  entry: LibraryPhrase,
  startedAt: string,
  faults: Faults = {},
  { passages, endUs = 12_000_000, lateMs = () => 0 }: Played = {},
): Take {
  const plan: Plan = {
    phrase: entry.phrase,
    passages: passages ?? [{ fromBar: 1, layer: entry.phrase.layers.length }],
    tempo: steadyTempo(entry.phrase.tempoBpm),
    windows: {},
  };
  const played = timedNotes(plan, endUs).map((due) => ({
    ...due,
    timeUs: due.timeUs + Math.round(1000 * lateMs(due)),
  }));
  return {
    startedAt,
    player: 'kit',
    phraseText: entry.text,
    passages: plan.passages,
    tempos: plan.tempo.changes,
    countInBars: 1,
    endUs,
    kit: GENERAL_MIDI,
    deviceOffsetMs: 0,
    toleranceMs: undefined,
    reachMs: undefined,
    messages: simulate(played, faults, 3).messages,
  };
}

/** Two days of practice in the log; the ids, oldest first. */
export async function fillLog(parts: StubParts): Promise<string[]> {
  const entry = parts.session.entry!;
  const takes = [
    simulatedTake(entry, '2026-11-20T18:20:00.000Z', { biasMs: 8, spreadMs: 5, wrongVoices: 0.1 }),
    simulatedTake(entry, '2026-11-21T18:20:00.000Z'),
  ];
  const ids: string[] = [];
  for (const take of takes) {
    const { summary, problem } = await parts.store.add(take, summaryOf(take)!);
    if (problem) throw new Error(problem.message);
    ids.push(summary.id);
  }
  return ids;
}

/** Forty seconds with more findings than are told unasked. */
export const manyFindings = (entry: LibraryPhrase): Take =>
  simulatedTake(
    entry,
    '2026-11-22T18:20:00.000Z',
    { spreadMs: 7, missed: 0.16, wrongVoices: 0.16, extra: 0.16, loudGhosts: 0.6 },
    { endUs: 40_000_000, lateMs: ({ note }) => (note.limb === 'L' ? 18 : 0) },
  );
