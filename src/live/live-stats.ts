import { findings } from '../coach/findings';
import { boundariesOf } from '../kit/boundaries-of';
import type { Level } from '../phrase/model/level';
import { dynamicsOf, type Dynamics } from '../score/dynamics';
import { figuresOf, type Figures } from '../score/figures';
import type { WrongVoicePair } from '../score/groups';
import type { Judgement } from '../score/judge';
import type { JudgedNote } from '../score/judged-note';
import { scoreTake } from '../score/score-take';
import { gateOfTake, type GateReport, type TrialOptions } from '../score/trials';
import type { LiveTake } from './live-take';

/** Notes looked back on at most while playing, so that the figures of a long take cost no frame. Chosen, not measured. */
const MOST_NOTES = 400;

/** What is told of one layer beside the lane. */
export interface LayerRow {
  /** 1-based. */
  readonly layer: number;
  readonly name: string;
  /** Of the notes this layer made or changed; undefined before any was due. */
  readonly figures: Figures | undefined;
  /** Of its accents or ghosts against the others of the phrase, where it has only one of them. */
  readonly contrastDb: number | undefined;
  readonly separation: number | undefined;
}

/** The figures beside the lane, made anew after every cycle. */
export interface LiveStats {
  readonly layer: number;
  /** Beats a minute in the last cycle. */
  readonly bpm: number;
  readonly cyclesPlayed: number;
  readonly lastCycle: Figures;
  readonly lastCycleDynamics: Dynamics;
  readonly overall: Figures;
  readonly layers: readonly LayerRow[];
  readonly extras: number;
  readonly setAside: { readonly doubleTriggers: number; readonly crosstalk: number };
  readonly dynamics: Dynamics;
  readonly gate: GateReport;
  readonly finding: string;
  readonly advice: string;
  readonly wrongVoices: readonly WrongVoicePair[];
}

/**
 * Figures of the passage that cycle `at` (0-based, of all laid out) belongs to, up to its end, from at
 * most `most` notes.
 */
export function liveStats(
  take: LiveTake,
  at: number,
  gateOptions: TrialOptions = {},
  most = MOST_NOTES,
): LiveStats {
  const { timeline, kit } = take;
  const { cycles, plan } = timeline;
  const cycle = cycles[at]!;
  const to = Math.min(cycles[at + 1]?.firstNote ?? take.noteCount, take.noteCount);
  const passageFrom = cycles.find(({ passage }) => passage === cycle.passage)!.firstNote;
  const judgement = take.judgement(Math.max(passageFrom, to - most), to);
  const last = take.judgement(cycle.firstNote, to);
  const score = scoreTake(judgement);
  const { layer } = plan.passages[cycle.passage]!;
  const sinceLayer = take.judgement(trialContext(take, cycle.passage), to);
  const [first] = findings(judgement, (pad) => boundariesOf(kit, pad));
  const { extras, ...setAside } = take.countStrokes();
  return {
    layer,
    bpm: plan.tempo.bpmAt(cycle.from),
    cyclesPlayed: cycle.cycle,
    lastCycle: figuresOf(last.notes),
    lastCycleDynamics: dynamicsOf(last.notes).overall,
    overall: score.overall,
    layers: layerRows(take, judgement, layer),
    extras,
    setAside,
    dynamics: score.dynamics.overall,
    gate: gateOfTake(plan, sinceLayer, gateOptions),
    finding: first?.text ?? '',
    advice: first?.advice ?? '',
    wrongVoices: score.wrongVoices,
  };
}

/** The figures of a take that is over: of its last passage, all of it. */
export function finalStats(take: LiveTake, gateOptions: TrialOptions = {}): LiveStats | undefined {
  const at = take.timeline.cycles.findLastIndex(({ firstNote }) => firstNote < take.noteCount);
  return at < 0 ? undefined : liveStats(take, at, gateOptions, Infinity);
}

/**
 * The first note that a trial of a passage (0-based) may depend on: where its layer began, which may be passages ago,
 * and one before it, which may be nearer to an extra stroke.
 */
function trialContext({ timeline }: LiveTake, passage: number): number {
  const { passages } = timeline.plan;
  let from = passage;
  while (from > 0 && passages[from - 1]!.layer === passages[passage]!.layer) from--;
  const first = timeline.cycles.find((cycle) => cycle.passage === from)!;
  return Math.max(0, first.firstNote - 1);
}

function layerRows(take: LiveTake, { notes }: Judgement, upTo: number): LayerRow[] {
  return take.timeline.plan.phrase.layers.slice(0, upTo).map(({ name }, i) => {
    const own = notes.filter(({ due }) => due.note.layers.includes(i + 1));
    const { contrastDb, separation } = dynamicsOf(withOpposite(own, notes)).overall;
    return {
      layer: i + 1,
      name,
      figures: own.length > 0 ? figuresOf(own) : undefined,
      contrastDb,
      separation,
    };
  });
}

/** A layer's accents or ghosts with what they stand out from, wherever that was written. */
function withOpposite(
  own: readonly JudgedNote[],
  all: readonly JudgedNote[],
): readonly JudgedNote[] {
  const has = (level: Level) => own.some(({ due }) => due.note.level === level);
  const levels = { accent: has('accent'), ghost: has('ghost') };
  if (levels.accent === levels.ghost) return own;
  const opposite = levels.accent ? 'ghost' : 'accent';
  return [...own, ...all.filter(({ due }) => due.note.level === opposite)];
}
