import type { LevelBoundaries } from '../kit/kit';
import type { Plan } from '../match/plan';
import { dynamicsOf } from '../score/dynamics';
import { figuresOf, isAsWritten } from '../score/figures';
import type { Judgement } from '../score/judge';
import { gateOfTake, type TrialOptions } from '../score/trials';
import { findings } from './findings';
import type { Slip } from './place/slip';

/** Counts and figures of notes, of one take or of several together. Offsets are stroke minus note, early negative. */
export interface RowFigures {
  readonly notes: number;
  /** In time, in the written voice and at no other level than written. */
  readonly asWritten: number;
  readonly inTime: number;
  readonly early: number;
  readonly late: number;
  readonly wrongVoice: number;
  readonly missed: number;
  readonly extras: number;
  /** How many offsets the next two rest on: answered notes of the right voice. */
  readonly timed: number;
  /** Undefined where there is no offset. */
  readonly offsetMeanMs: number | undefined;
  /** Standard deviation, n - 1; undefined where there are fewer than two. */
  readonly offsetSpreadMs: number | undefined;
}

/** What a table of takes says of one of them. */
export interface TakeRow extends RowFigures {
  readonly phrase: string;
  /** The layer played last, 1-based. */
  readonly layer: number;
  readonly layerName: string;
  /** Beats of the meter a minute, at the beginning. */
  readonly tempoBpm: number;
  readonly contrastDb: number | undefined;
  /** What the gate says of the layer played last. */
  readonly passed: boolean;
  /** What stands out first. */
  readonly finding: string;
}

export interface TakeRowOptions {
  /** How the gate looks at it. */
  readonly trials?: TrialOptions;
  /** Where the place was lost, where that is known already. */
  readonly slips?: readonly Slip[];
}

/**
 * A take in one row.
 *
 * @param boundaries the player's level boundaries for a pad (MIDI note number)
 * @example takeRow({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, { notes: [], extras: [] }, () => ({ ghostMax: 50, accentMin: 95 })).layerName // => 'Sticking'
 */
export function takeRow(
  plan: Plan,
  judgement: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
  { trials, slips }: TakeRowOptions = {},
): TakeRow {
  const { notes, extras } = judgement;
  const figures = figuresOf(notes);
  const layer = notes.at(-1)?.due.layer ?? plan.passages[0]!.layer;
  return {
    phrase: plan.phrase.title,
    layer,
    layerName: plan.phrase.layers[layer - 1]!.name,
    tempoBpm: plan.tempo.changes[0]!.bpm,
    notes: notes.length,
    asWritten: notes.filter(isAsWritten).length,
    inTime: figures.inTime,
    early: figures.early,
    late: figures.late,
    wrongVoice: figures.wrongVoice,
    missed: figures.missed,
    extras: extras.length,
    timed: figures.timed,
    offsetMeanMs: figures.meanMs,
    offsetSpreadMs: figures.spreadMs,
    contrastDb: dynamicsOf(notes).overall.contrastDb,
    passed: gateOfTake(plan, judgement, trials).passed,
    finding: findings(plan, judgement, boundaries, slips && { slips })[0]!.text,
  };
}

/**
 * Several takes as one: what figures of all their notes would be.
 *
 * @example sumOfRows([]).notes // => 0
 */
export function sumOfRows(rows: readonly RowFigures[]): RowFigures {
  const sum = (count: (row: RowFigures) => number) =>
    rows.reduce((all, row) => all + count(row), 0);
  const timed = sum((row) => row.timed);
  const offsetMeanMs =
    timed === 0 ? undefined : sum((row) => row.timed * (row.offsetMeanMs ?? 0)) / timed;
  // Squares about the mean of all: those within each take, and those of its mean.
  const squares = sum(
    ({ timed: count, offsetMeanMs: mean = 0, offsetSpreadMs: spread = 0 }) =>
      Math.max(0, count - 1) * spread ** 2 + count * (mean - (offsetMeanMs ?? 0)) ** 2,
  );
  return {
    notes: sum((row) => row.notes),
    asWritten: sum((row) => row.asWritten),
    inTime: sum((row) => row.inTime),
    early: sum((row) => row.early),
    late: sum((row) => row.late),
    wrongVoice: sum((row) => row.wrongVoice),
    missed: sum((row) => row.missed),
    extras: sum((row) => row.extras),
    timed,
    offsetMeanMs,
    offsetSpreadMs: timed < 2 ? undefined : Math.sqrt(squares / (timed - 1)),
  };
}
