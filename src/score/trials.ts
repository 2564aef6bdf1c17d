import type { Stroke } from '../kit/stroke';
import type { Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { cycleNotes } from '../phrase/layers/expand';
import { groupBy } from '../time/group-by';
import { countingBars } from './counting-bars';
import { isAsWritten } from './figures';
import { Trial, type Gate } from './gate';
import type { GateOptions } from './gate-options';
import type { Judgement } from './judge';
import type { JudgedNote } from './judged-note';
import { nearestNote } from './nearest-note';
import { OwnNotes, ownParts } from './own-notes';

export interface TrialOptions extends GateOptions {
  /** Where the player asked for a new trial, integer microseconds from bar 1 beat 1, ascending. */
  readonly requestsUs?: readonly number[] | undefined;
  /** Bars that do not count, 1-based. */
  readonly leftOutBars?: readonly number[] | undefined;
  /** Where the last whole cycle ends, integer microseconds: what is due later is left out. */
  readonly endUs?: number;
}

/** One stretch of a take that the gate looks at by itself. */
export interface LayerTrial {
  /** 1-based. */
  readonly layer: number;
  readonly bpm: number;
  /** Of its first note. */
  readonly fromBar: number;
  /** Of its last note. */
  readonly toBar: number;
  readonly trial: Trial;
  /** Its notes, and the extra strokes told with them. */
  readonly judgement: Judgement;
}

/**
 * The trials of a take in the order of playing, of which the first may go on with one from before: a new one begins with
 * every layer, at every change of tempo, where the target has moved and where one was asked for. An extra stroke counts in the trial of the note that
 * it is told with.
 *
 * @throws RangeError when the threshold or the chance of a wrong pass is out of range.
 * @example trialsOf({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, { notes: [], extras: [] }) // => []
 */
export function trialsOf(
  plan: Plan,
  { notes: all, extras }: Judgement,
  options: TrialOptions = {},
): readonly LayerTrial[] {
  const { endUs = Infinity } = options;
  const walk = new TrialWalk(plan, options);
  walk.add({
    notes: all.filter(({ due }) => due.timeUs < endUs),
    extras: extras.filter(({ timeUs }) => timeUs < endUs),
  });
  return walk.trials;
}

/**
 * The trials of a take as far as its notes were added, in the order of time.
 *
 * @throws RangeError when the threshold or the chance of a wrong pass is out of range.
 */
export class TrialWalk {
  readonly #plan: Plan;
  readonly #options: TrialOptions;
  readonly #countsIn: (bar: number) => boolean;
  /** Where a new trial begins whatever the layer, and how many of them are over. */
  readonly #startsUs: readonly number[];
  #started = 0;
  #trials: OpenTrial[] = [];

  constructor(plan: Plan, options: TrialOptions) {
    this.#plan = plan;
    this.#options = options;
    this.#countsIn = countingBars(plan, options.leftOutBars);
    const { requestsUs = [] } = options;
    this.#startsUs = [...startsOfTempi(plan), ...requestsUs].sort((a, b) => a - b);
  }

  get trials(): readonly LayerTrial[] {
    return this.#trials;
  }

  /**
   * Adds notes from index `from` up to `to`, and the extra strokes told with them: what stands before and after says
   * which those are.
   */
  add({ notes, extras }: Judgement, from = 0, to = notes.length): void {
    const extrasOf = extrasByNote(notes, extras);
    for (let i = from; i < to; i++) this.#addNote(notes[i]!, extrasOf.get(i) ?? []);
  }

  /** Goes on by itself from here; of the trials that are over nothing is copied. */
  fork(): TrialWalk {
    const other = new TrialWalk(this.#plan, this.#options);
    other.#started = this.#started;
    other.#trials = [...this.#trials];
    const now = other.#trials.pop();
    if (!now) return other;
    const { notes, extras } = now.judgement;
    const judgement = { notes: [...notes], extras: [...extras] };
    other.#trials.push({ ...now, trial: now.trial.fork(), judgement });
    return other;
  }

  #addNote(note: JudgedNote, beside: readonly Stroke[]): void {
    const { due } = note;
    const now = this.#trialOf(due);
    now.toBar = due.note.bar;
    now.judgement.notes.push(note);
    const counts = this.#countsIn(due.note.bar);
    if (counts) now.trial.add(due.note, due.layer, isAsWritten(note));
    for (const extra of beside) {
      now.judgement.extras.push(extra);
      if (counts) now.trial.addExtra();
    }
  }

  #trialOf(due: TimedNote): OpenTrial {
    const startsUs = this.#startsUs;
    const started = this.#started;
    while (this.#started < startsUs.length && due.timeUs >= startsUs[this.#started]!)
      this.#started++;
    const before = this.#trials.at(-1);
    const same = before?.layer === due.layer ? before : undefined;
    if (same && this.#started === started && !this.#hasMoved(same.passage, due.passage))
      return same;
    const { phrase, tempo } = this.#plan;
    const trial: OpenTrial = {
      layer: due.layer,
      passage: due.passage,
      bpm: tempo.bpmAt(due.note.onset),
      fromBar: due.note.bar,
      toBar: due.note.bar,
      trial:
        same?.trial.afresh() ??
        new Trial(new OwnNotes(ownParts(phrase, due.layer)), {
          ...this.#options,
          continues: this.#options.continues && !before,
        }),
      judgement: { notes: [], extras: [] },
    };
    this.#trials.push(trial);
    return trial;
  }

  /** Whether the target waited for the player, or brought the player back, on the way from one passage to another. */
  #hasMoved(from: number, to: number): boolean {
    if (from === to) return false;
    const since = this.#plan.passages.slice(from + 1, to + 1);
    return since.some(
      ({ latePartials, countInBars }) => latePartials !== undefined || countInBars !== undefined,
    );
  }
}

interface OpenTrial extends LayerTrial {
  /** 0-based, of the plan. */
  readonly passage: number;
  toBar: number;
  readonly judgement: { readonly notes: JudgedNote[]; readonly extras: Stroke[] };
}

const startsOfTempi = ({ tempo }: Plan): number[] =>
  tempo.changes.slice(1).map(({ fromBeat }) => tempo.usAt(fromBeat));

/** The extra strokes that are told with each note, by the note's index. */
function extrasByNote(
  notes: readonly JudgedNote[],
  extras: Judgement['extras'],
): ReadonlyMap<number, readonly Stroke[]> {
  return groupBy(extras, (extra) => {
    const near = nearestNote(notes, extra);
    return near < 0 ? undefined : near;
  });
}

/** What the gate says, and how far it is to passing. */
export interface GateReport extends Gate {
  /** Cycles without a fault that are still needed, a pickup that was wrong aside; 0 once passed, undefined where thousands do not pass. */
  readonly cleanCyclesToPass: number | undefined;
}

/**
 * What the gate says of the trial that goes on where a take ends; of a take without a note, what it asks of the first layer.
 *
 * @throws RangeError when the threshold or the chance of a wrong pass is out of range.
 * @example gateOfTake({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', cycle: 16, layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, { notes: [], extras: [] }).cleanCyclesToPass // => 4
 */
export function gateOfTake(
  plan: Plan,
  judgement: Judgement,
  options: TrialOptions = {},
): GateReport {
  return gateOfTrial(plan, trialsOf(plan, judgement, options).at(-1), options);
}

/** The same of the last of a take's trials, where there is one. */
export function gateOfTrial(
  plan: Plan,
  last: LayerTrial | undefined,
  options: TrialOptions,
): GateReport {
  const { phrase, passages } = plan;
  const layer = last?.layer ?? passages[0]!.layer;
  const trial = last?.trial ?? new Trial(new OwnNotes(ownParts(phrase, layer)), options);
  const cyclesPlayed = last?.judgement.notes.at(-1)?.due.note.cycle ?? 0;
  const cycleAhead = (ahead: number) => cycleNotes(phrase, layer, cyclesPlayed + 1 + ahead, 1);
  return { ...trial.gate, cleanCyclesToPass: trial.cleanCyclesToPass(layer, cycleAhead) };
}
