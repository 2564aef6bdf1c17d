import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { timedNotes } from '../../src/match/timed-notes';
import type { Plan } from '../../src/match/plan';
import { summaryOf } from '../../src/practice/take-scoring';
import type { LibraryPhrase } from '../../src/practice/library.svelte';
import { simulate, type Faults } from '../../src/take/simulate';
import type { Take } from '../../src/take/take';
import { steadyTempo } from '../../src/time/tempo';
import type { StubParts } from './stub-parts';

/** Twelve seconds of a phrase's last layer, as somebody plays it whom the simulated player stands in for. */
export function simulatedTake(entry: LibraryPhrase, startedAt: string, faults: Faults = {}): Take {
  const plan: Plan = {
    phrase: entry.phrase,
    passages: [{ fromBar: 1, layer: entry.phrase.layers.length }],
    tempo: steadyTempo(entry.phrase.tempoBpm),
    windows: {},
  };
  return {
    startedAt,
    player: 'kit',
    phraseText: entry.text,
    passages: plan.passages,
    tempos: plan.tempo.changes,
    countInBars: 1,
    endUs: 12_000_000,
    kit: GENERAL_MIDI,
    deviceOffsetMs: 0,
    toleranceMs: undefined,
    reachMs: undefined,
    messages: simulate(timedNotes(plan, 12_000_000), faults, 3).messages,
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
