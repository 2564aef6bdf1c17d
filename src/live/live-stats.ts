import type { ClickReturn } from '../coach/click-returns';
import type { FindingCode } from '../coach/wording';
import { findings } from '../coach/findings';
import { ERROR_RATE } from '../coach/take-evidence';
import { endsLost, isInPlaceAt } from '../coach/place/slip';
import { LIVE_NOTES, liveErrorRate } from '../coach/live-error-rate';
import { boundariesOf } from '../kit/boundaries-of';
import type { StrokesSetAside } from '../kit/pad-fault';
import { dynamicsOf, type Dynamics } from '../score/dynamics';
import { figuresOf, type Figures } from '../score/figures';
import { wrongVoices, type WrongVoicePair } from '../score/groups';
import type { JudgedNote } from '../score/judged-note';
import { padsWithoutLevels, type PadWithoutLevels } from '../score/pads-without-levels';
import { gateOfTrial, type GateReport, type TrialOptions } from '../score/trials';
import { gatheredCycles, type CycleRange } from './gathered-cycles';
import type { LayerRow } from './layer-rows';
import type { LiveTake } from './live-take';
import { runningReturns } from './running-returns';
import { RunningTrial } from './running-trial';

/** The figures of some whole cycles. */
export interface CycleStats {
  /** 1-based, of those that their passage has. */
  readonly fromCycle: number;
  readonly toCycle: number;
  readonly figures: Figures;
  readonly dynamics: Dynamics;
}

/**
 * The figures beside the lane. The gate is told after every cycle; all else changes with the cycles that are told
 * together (`gatheredCycles`), and the finding and the rows speak of the gate's trial up to there.
 */
export interface LiveStats {
  readonly layer: number;
  /** Beats a minute in the last cycle. */
  readonly bpm: number;
  /** Undefined before there were enough of them. */
  readonly lastCycles: CycleStats | undefined;
  /** Of the notes that the finding speaks of. */
  readonly overall: Figures;
  readonly layers: readonly LayerRow[];
  /** Where the notes of the rows are, 1-based; undefined as long as there are none. */
  readonly bars: { readonly from: number; readonly to: number } | undefined;
  /** What came of bars without a click, so far. */
  readonly returns: readonly ClickReturn[];
  readonly extras: number;
  readonly setAside: StrokesSetAside;
  readonly gate: GateReport;
  /** The gate of the notes that the rows count, so that its sentence agrees with them; a pass is told at once. */
  readonly gateOfRows: GateReport;
  /** Whether the place is lost. */
  readonly isLost: boolean;
  /** What the notes of `overall` have to say first; empty where it is to wait. */
  readonly code: FindingCode;
  readonly finding: string;
  readonly advice: string;
  /** Where the place was kept. */
  readonly wrongVoices: readonly WrongVoicePair[];
  /** Of the notes that the rows count. */
  readonly padsWithoutLevels: readonly PadWithoutLevels[];
}

/** The figures when cycle `at` (0-based, of all laid out) is over. */
export function liveStats(take: LiveTake, at: number, options: TrialOptions = {}): LiveStats {
  const cycles = gatheredCycles(take.timeline, at);
  const seen = cycles ? take.timeline.endNote(cycles.last) : 0;
  return statsOf(take, { at, cycles, seen, most: LIVE_NOTES, errorRateOf: liveErrorRate }, options);
}

/** The figures of a take that is over: those of the last cycles stay, the rest is of its last trial, all of it. */
export function finalStats(take: LiveTake, options: TrialOptions = {}): LiveStats | undefined {
  const { timeline, noteCount } = take;
  const at = timeline.cycles.findLastIndex(({ firstNote }) => firstNote < noteCount);
  if (at < 0) return undefined;
  const cycles = finalCycles(take, timeline.endNote(at) <= noteCount ? at : at - 1);
  return statsOf(
    take,
    { at, cycles, seen: noteCount, most: Infinity, errorRateOf: () => ERROR_RATE },
    options,
  );
}

/** What was told last while playing; where that is nothing, the whole cycles there are, up to `last`. */
function finalCycles({ timeline }: LiveTake, last: number): CycleRange | undefined {
  if (last < 0) return undefined;
  const { passage } = timeline.cycles[last]!;
  const first = timeline.cycles.findIndex((cycle) => cycle.passage === passage);
  return gatheredCycles(timeline, last) ?? { first, last };
}

interface Look {
  /** The cycle that is over. */
  readonly at: number;
  readonly cycles: CycleRange | undefined;
  /** The index after the last note that the figures may speak of. */
  readonly seen: number;
  /** Notes that the finding looks back on. */
  readonly most: number;
  /** How often the finding of so many notes may be one where there is nothing, 0 to 1. */
  readonly errorRateOf: (notes: number) => number;
}

function statsOf(
  take: LiveTake,
  { at, cycles, seen, most, errorRateOf }: Look,
  options: TrialOptions,
): LiveStats {
  const { timeline, kit } = take;
  const { plan } = timeline;
  const { passage, from } = timeline.cycles[at]!;
  const { layer } = plan.passages[passage]!;
  const to = Math.min(timeline.endNote(at), take.noteCount);
  const { trial, trialOfSeen, counted, tallies } = runningTrial(take).look(to, seen, options);
  const gate = gateOfTrial(plan, trial, options);
  const trialFrom = to - (trial?.judgement.notes.length ?? 0);
  const judgement = take.judgement(Math.max(trialFrom, seen - most), Math.max(trialFrom, seen));
  const { slips } = take.place;
  const errorRate = errorRateOf(judgement.notes.length);
  const first = findings(plan, judgement, (pad) => boundariesOf(kit, pad), {
    errorRate,
    slips,
  })[0]!;
  const gateOfRows = () => {
    if (seen >= to || seen <= trialFrom) return gate;
    const report = gateOfTrial(plan, trialOfSeen, options);
    return gate.passed && !report.passed ? gate : report;
  };
  const { extras, ...setAside } = take.countStrokes();
  return {
    layer,
    bpm: plan.tempo.bpmAt(from),
    lastCycles: cycles && cycleStats(take, cycles),
    overall: figuresOf(judgement.notes),
    layers: tallies.rows(plan.phrase, layer),
    bars: barsOf(counted),
    returns: runningReturns(take, to),
    extras,
    setAside,
    gate,
    gateOfRows: gateOfRows(),
    isLost: endsLost(slips),
    code: first.code,
    finding: first.text,
    advice: first.advice,
    wrongVoices: wrongVoices(judgement.notes.filter(({ due }) => isInPlaceAt(slips, due.timeUs))),
    padsWithoutLevels: padsWithoutLevels(counted),
  };
}

function cycleStats(take: LiveTake, { first, last }: CycleRange): CycleStats {
  const { timeline } = take;
  const from = timeline.cycles[first]!;
  const { notes } = take.judgement(from.firstNote, timeline.endNote(last));
  return {
    fromCycle: from.cycle,
    toCycle: timeline.cycles[last]!.cycle,
    figures: figuresOf(notes),
    dynamics: dynamicsOf(notes).overall,
  };
}

/** A pickup, which belongs to no cycle, is due in the bar before. */
function barsOf(notes: readonly JudgedNote[]): LiveStats['bars'] {
  const last = notes.at(-1)?.due.note;
  const first = notes.find(({ due }) => due.note.cycle > 0)?.due.note ?? last;
  return first && last && { from: first.bar, to: Math.max(first.bar, last.bar) };
}

/** What is carried from look to look, by take. */
const runningTrials = new WeakMap<LiveTake, RunningTrial>();

function runningTrial(take: LiveTake): RunningTrial {
  const running = runningTrials.get(take) ?? new RunningTrial(take);
  runningTrials.set(take, running);
  return running;
}
