import { deepStrictEqual, equal, ok } from 'node:assert/strict';
import { findings } from '../../src/coach/findings';
import { boundariesOf } from '../../src/kit/boundaries-of';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Stroke } from '../../src/kit/stroke';
import type { Plan } from '../../src/match/plan';
import { timedNotes } from '../../src/match/timed-notes';
import { expand } from '../../src/phrase/layers/expand';
import { realignment } from '../../src/phrase/layers/realignment';
import { assess } from '../../src/score/assess';
import type { Judgement } from '../../src/score/judge';
import { scoreTake } from '../../src/score/score-take';
import { simulate } from '../../src/take/simulate';
import { readStrokes } from '../../src/kit/read-strokes';
import { beats } from '../../src/time/beats';
import { steadyTempo } from '../../src/time/tempo';
import { benchPhrase, SLACK_WATER } from './bench-phrases';
import { duration, p50, timed, type BenchRow } from './bench-row';

const RUNS = 15;
const LAYER = 3;
const BEATS_PER_BAR = 4;
const PARTIALS_PER_BAR = 16;
/** Late as a whole and uneven a little: far from the windows of the neighbours, 125 ms away. */
const FAULTS = { biasMs: 25, spreadMs: 8, missed: 0.03, velocitySpread: 4 };

const phrase = benchPhrase(SLACK_WATER);
const boundaries = (pad: number) => boundariesOf(GENERAL_MIDI, pad);

/** Somebody waits for them who has just stopped. Chosen, not measured. */
const FINDINGS_MS = 20;

/** One step of the work on a finished take, and how often it is done in one timing. */
export interface Step {
  readonly name: string;
  readonly asserted: string;
  readonly work: () => unknown;
  readonly repeat: number;
  readonly aimMs?: number;
}

function playedTake(bars: number): { plan: Plan; strokes: readonly Stroke[]; missed: number } {
  const tempo = steadyTempo(phrase.tempoBpm);
  const plan = { phrase, passages: [{ fromBar: 1, layer: LAYER }], tempo, windows: {} };
  const notes = timedNotes(plan, tempo.usAt(beats(bars * BEATS_PER_BAR)) - 1);
  const { truth, messages } = simulate(notes, FAULTS, 7);
  const lastPlayed = truth.findLastIndex(({ kind }) => kind === 'played');
  const missed = truth.filter(({ kind }, i) => kind === 'missed' && i < lastPlayed).length;
  return { plan, strokes: readStrokes(messages, GENERAL_MIDI).strokes, missed };
}

/** The steps, each shown to give what counting by hand and the dialled faults say. */
export function checkTakeWork(bars: number): readonly Step[] {
  const target = expand(phrase, LAYER, { bars });
  equal(target.length, bars * PARTIALS_PER_BAR);
  equal(target.at(-1)!.onset.compare(beats(bars * PARTIALS_PER_BAR - 1, 4)), 0);

  // 20 partials against 16: least common multiple 80
  const { cycles, bars: untilBar } = realignment(phrase, LAYER);
  deepStrictEqual([cycles, untilBar], [4, 5]);

  const { plan, strokes, missed } = playedTake(bars);
  const judge = (): Judgement => assess(plan, strokes, GENERAL_MIDI);
  const judgement = judge();
  equal(judgement.notes.filter(({ verdict }) => verdict === 'missed').length, missed);
  equal(judgement.extras.length, 0);

  const { overall } = scoreTake(judgement);
  ok(Math.abs(overall.meanMs! - FAULTS.biasMs) < 2, `mean ${overall.meanMs}`);
  ok(Math.abs(overall.spreadMs! - FAULTS.spreadMs) < 2, `spread ${overall.spreadMs}`);
  const codes = findings(plan, judgement, boundaries).map(({ code }) => code);
  ok(codes.includes('all strokes off'), codes.join(', '));

  return [
    {
      name: 'expand',
      asserted: 'count and last onset, exactly',
      work: () => expand(phrase, LAYER, { bars }),
      repeat: 1,
    },
    {
      name: 'realignment',
      asserted: '20 against 16: 4 cycles, 5 bars',
      work: () => realignment(phrase, LAYER),
      repeat: 200,
    },
    { name: 'assess', asserted: 'the dialled misses, no extras', work: judge, repeat: 1 },
    {
      name: 'figures and gate',
      asserted: 'the dialled bias and spread',
      work: () => scoreTake(judgement),
      repeat: 1,
    },
    {
      name: 'findings',
      asserted: 'the dialled bias is told',
      work: () => findings(plan, judgement, boundaries),
      repeat: 1,
      aimMs: FINDINGS_MS,
    },
  ];
}

/** What happens to a take before, while and after it is read: `bars` at 120 bpm, 16 notes each. */
export function takeWorkRows(bars: number): BenchRow[] {
  const minutes = (bars * BEATS_PER_BAR) / phrase.tempoBpm;
  return checkTakeWork(bars).map(({ name, asserted, work, repeat, aimMs }) => {
    const took = timed(RUNS, () => {
      for (let i = 0; i < repeat; i++) work();
    }).map((all) => all / repeat);
    return {
      name: `${name}, ${minutes} minutes`,
      asserted,
      p50: duration(p50(took)),
      tail: `slowest ${duration(Math.max(...took))}`,
      ...(aimMs !== undefined && { aim: `p50 < ${aimMs} ms`, met: p50(took) < aimMs }),
      note: `${bars * PARTIALS_PER_BAR} notes over ${bars} bars at ${phrase.tempoBpm} bpm, ${RUNS} runs after a warm-up.`,
    };
  });
}
