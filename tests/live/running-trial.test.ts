import { describe, expect, it } from 'vitest';
import type { LayerRow } from '../../src/live/layer-rows';
import type { LiveTake } from '../../src/live/live-take';
import { RunningTrial } from '../../src/live/running-trial';
import { contrastDb } from '../../src/score/contrast';
import { tellsLevel } from '../../src/score/dynamics';
import { figuresOf } from '../../src/score/figures';
import type { JudgedNote } from '../../src/score/judged-note';
import { gateOfTrial, trialsOf, type TrialOptions } from '../../src/score/trials';
import { chance } from '../../src/time/chance';
import { longRunCount } from '../run-count';
import { differencesOfRun } from './live-run';

/** What a look tells, as it can be compared. */
interface Told {
  readonly gate: unknown;
  readonly gateOfSeen: unknown;
  readonly notes: number;
  readonly extras: number;
  readonly rows: readonly LayerRow[];
}

/** The plain way: the whole take judged, and all its trials, at every look. */
function plainly(take: LiveTake, to: number, seen: number, options: TrialOptions): Told {
  const { plan } = take.timeline;
  const judgement = take.judgement(0, to);
  const trial = trialsOf(plan, judgement, options).at(-1);
  const endUs = seen < to ? take.noteTimeUs[seen]! : Infinity;
  const before = trialsOf(plan, judgement, { ...options, endUs }).at(-1);
  const notes = trial?.judgement.notes ?? [];
  const counted = notes
    .slice(0, Math.max(0, seen - (to - notes.length)))
    .filter(({ due }) => options.leftOutBars?.includes(due.note.bar) !== true);
  return {
    gate: gateOfTrial(plan, trial, options),
    gateOfSeen: gateOfTrial(plan, before, options),
    notes: notes.length,
    extras: trial?.judgement.extras.length ?? 0,
    rows: plan.phrase.layers.map(({ name }, i) => rowOf(i + 1, name, counted)),
  };
}

function rowOf(layer: number, name: string, counted: readonly JudgedNote[]): LayerRow {
  const own = counted.filter(({ due }) => due.note.layers.includes(layer));
  const has = (level: string) => own.some(({ due }) => due.note.level === level);
  const velocities = (level: string) =>
    (has(level) ? own : counted)
      .filter((note) => note.due.note.level === level && tellsLevel(note))
      .map(({ stroke }) => stroke!.velocity);
  const { count, asWritten, meanMs, spreadMs } = figuresOf(own);
  const contrast =
    has('accent') || has('ghost')
      ? contrastDb(velocities('accent'), velocities('ghost'))
      : undefined;
  return {
    layer,
    name,
    figures: own.length > 0 ? { count, asWritten: asWritten!, meanMs, spreadMs } : undefined,
    contrastDb: contrast,
    against:
      contrast === undefined || has('accent') === has('ghost')
        ? undefined
        : has('accent')
          ? 'ghosts'
          : 'accents',
  };
}

function carried(
  running: RunningTrial,
  take: LiveTake,
  [to, seen]: readonly [number, number],
  options: TrialOptions,
): Told {
  const { plan } = take.timeline;
  const { trial, trialOfSeen, tallies } = running.look(to, seen, options);
  return {
    gate: gateOfTrial(plan, trial, options),
    gateOfSeen: gateOfTrial(plan, trialOfSeen, options),
    notes: trial?.judgement.notes.length ?? 0,
    extras: trial?.judgement.extras.length ?? 0,
    rows: tallies.rows(plan.phrase, plan.phrase.layers.length),
  };
}

describe('the trial that goes on', () => {
  it('lawCarriedEqualsPlain: is told as by judging the whole take at every look, whatever changes meanwhile', () => {
    let looks = 0;
    const runs = longRunCount(150, 15);
    for (let seed = 0; seed < runs; seed++) {
      const { next } = chance(seed + 1_000_000);
      let running: RunningTrial | undefined;
      let options: TrialOptions = {};
      differencesOfRun(seed, (take, nowUs) => {
        if (next() % 4 > 0) return;
        running ??= new RunningTrial(take);
        const requestsUs = [...(options.requestsUs ?? []), Math.round(nowUs)];
        if (next() % 30 === 0) options = { ...options, requestsUs };
        const bar = take.timeline.marks.findLast(({ timeUs }) => timeUs <= nowUs)?.bar ?? 1;
        if (next() % 30 === 0)
          options = { ...options, leftOutBars: [...(options.leftOutBars ?? []), bar] };
        const due = take.timeline.notes.filter(({ timeUs }) => timeUs <= nowUs).length;
        const seen = Math.max(0, due - (next() % 15));
        const looked = carried(running, take, [due, seen], options);
        expect({ seed, nowUs, ...looked }).toEqual({
          seed,
          nowUs,
          ...plainly(take, due, seen, options),
        });
        looks++;
      });
    }
    expect(looks).toBeGreaterThan(20 * runs);
  });
});
