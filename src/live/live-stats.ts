import { findings } from '../coach/findings';
import { boundariesOf } from '../kit/boundaries-of';
import type { Level } from '../phrase/model/level';
import { dynamicsOf, type Dynamics } from '../score/dynamics';
import { figuresOf, type Figures } from '../score/figures';
import { cleanCyclesToPass, type Gate } from '../score/gate';
import type { WrongVoicePair } from '../score/groups';
import type { Judgement } from '../score/judge';
import type { JudgedNote } from '../score/judged-note';
import { scoreTake } from '../score/score-take';
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
  readonly cyclesPlayed: number;
  readonly lastCycle: Figures;
  readonly lastCycleDynamics: Dynamics;
  readonly overall: Figures;
  readonly layers: readonly LayerRow[];
  readonly extras: number;
  readonly setAside: { readonly doubleTriggers: number; readonly crosstalk: number };
  readonly dynamics: Dynamics;
  readonly gate: Gate;
  readonly cleanCyclesToPass: number;
  readonly finding: string;
  readonly advice: string;
  readonly wrongVoices: readonly WrongVoicePair[];
}

/**
 * Figures of the passage that cycle `at` (0-based, of all laid out) belongs to, up to its end, from at
 * most `most` notes.
 */
export function liveStats(take: LiveTake, at: number, most = MOST_NOTES): LiveStats {
  const { timeline, kit } = take;
  const { cycles, plan } = timeline;
  const cycle = cycles[at]!;
  const to = Math.min(cycles[at + 1]?.firstNote ?? take.noteCount, take.noteCount);
  const passageFrom = cycles.find(({ passage }) => passage === cycle.passage)!.firstNote;
  const judgement = take.judgement(Math.max(passageFrom, to - most), to);
  const last = take.judgement(cycle.firstNote, to);
  const score = scoreTake(judgement);
  const { layer } = plan.passages[cycle.passage]!;
  const [first] = findings(judgement, (pad) => boundariesOf(kit, pad));
  const { extras, ...setAside } = take.countStrokes();
  return {
    layer,
    cyclesPlayed: cycle.cycle,
    lastCycle: figuresOf(last.notes),
    lastCycleDynamics: dynamicsOf(last.notes).overall,
    overall: score.overall,
    layers: layerRows(take, judgement, layer),
    extras,
    setAside,
    dynamics: score.dynamics.overall,
    gate: score.gate,
    cleanCyclesToPass: cleanCyclesToPass(Math.max(1, to - cycle.firstNote), score.gate),
    finding: first?.text ?? '',
    advice: first?.advice ?? '',
    wrongVoices: score.wrongVoices,
  };
}

/** The figures of a take that is over: of its last passage, all of it. */
export function finalStats(take: LiveTake): LiveStats | undefined {
  const at = take.timeline.cycles.findLastIndex(({ firstNote }) => firstNote < take.noteCount);
  return at < 0 ? undefined : liveStats(take, at, Infinity);
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
