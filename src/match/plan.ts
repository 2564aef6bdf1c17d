import { partialOnsets, pickupNotes } from '../phrase/layers/expand';
import { layerShape, type LayerShape } from '../phrase/layers/layer-shape';
import { passageStart } from '../phrase/layers/passage-start';
import type { Passage } from '../phrase/model/passage';
import { gridAt } from '../phrase/model/grid';
import type { Phrase } from '../phrase/model/phrase';
import { beats, type Beats } from '../time/beats';
import { firstFrom } from '../time/first-from';
import {
  isSilentBar,
  silentStretches,
  type BarStretch,
  type SilentBars,
} from '../time/silent-bars';
import type { TempoMap } from '../time/tempo';
import type { WindowSettings } from './hit-window';

/** All that decides what is due and when: the phrase, which layer from which bar, tempo, windows; and which bars have no click. */
export interface Plan {
  readonly phrase: Phrase;
  /** In bar order; the first is at bar 1. */
  readonly passages: readonly Passage[];
  readonly tempo: TempoMap;
  readonly windows: WindowSettings;
  /** Absent where the click never stops. */
  readonly silentBars?: SilentBars | undefined;
}

/** A passage laid on the beats, which count from bar 1 beat 1 of the take. */
export interface PassageSpan extends Passage {
  /** 0-based place in the plan. */
  readonly index: number;
  /** As it lies in this passage: `startBeats` counts from its bar line. */
  readonly shape: LayerShape;
  /** Its bar line. */
  readonly from: Beats;
  /** Where the next passage takes over; undefined for the last. */
  readonly to: Beats | undefined;
  /** Where its notes end: the pickup of a later passage takes the place of the last partials. */
  readonly notesTo: Beats | undefined;
}

/** Where a cycle lies, in exact beats from bar 1 beat 1 of the take. */
export interface CycleSpan {
  readonly from: Beats;
  readonly to: Beats;
}

/** Lays a passage (0-based) of a plan on the beats. */
export function passageSpan(plan: Plan, index: number): PassageSpan {
  const { phrase, passages } = plan;
  const passage = passages[index]!;
  const next = passages[index + 1];
  const shape = layerShape(phrase, passage.layer);
  const late = beats(passage.latePartials ?? 0, shape.subdivision);
  return {
    ...passage,
    index,
    shape: { ...shape, startBeats: shape.startBeats.add(late) },
    from: barLine(phrase, passage),
    to: next && passageStart(phrase, next),
    notesTo: firstDueAfter(plan, index),
  };
}

const barLine = ({ meter }: Phrase, { fromBar }: Passage): Beats =>
  beats((fromBar - 1) * meter.beatsPerBar);

/** From where on something of a later passage is due: the pickup of one may come ahead of another that is shorter. */
function firstDueAfter({ phrase, passages }: Plan, index: number): Beats | undefined {
  const ahead = mostAhead(phrase);
  let first: Beats | undefined;
  for (let i = index + 1; i < passages.length; i++) {
    const passage = passages[i]!;
    if (first && passageStart(phrase, passage).sub(ahead).compare(first) >= 0) break;
    const due = firstDue(phrase, passage);
    if (!first || due.compare(first) < 0) first = due;
  }
  return first;
}

/** Beats that a passage's first note may lie ahead of its start at most: a pickup, or what swings. */
function mostAhead({ layers }: Phrase): number {
  let most = 1;
  for (const { changes } of layers)
    for (const change of changes)
      if (change.kind === 'pickup')
        for (const { partialsBefore } of change.pickup) most = Math.max(most, partialsBefore + 1);
  return most;
}

/** From where on nothing of the passage before is due. */
function firstDue(phrase: Phrase, passage: Passage): Beats {
  const { layer, latePartials } = passage;
  const line = barLine(phrase, passage);
  if (latePartials !== undefined) {
    const { displace } = gridAt(phrase, layer);
    return line.add(partialOnsets(phrase, layer)(displace + latePartials));
  }
  const start = passageStart(phrase, passage);
  const pickup = pickupNotes(phrase, layer)[0];
  const first = pickup ? line.add(pickup.onset) : start;
  return first.compare(start) < 0 ? first : start;
}

/** Where the target only waited, the phrase goes on. */
export const hasPickup = ({ latePartials }: Passage): boolean => latePartials === undefined;

/** A passage's cycle (1-based), cut where the next passage begins; undefined when it would lie beyond. */
export function cycleSpan(passage: PassageSpan, cycle: number): CycleSpan | undefined {
  const { shape } = passage;
  const from = passage.from.add(shape.startBeats).add(shape.cycleBeats.mul(cycle - 1));
  const to = from.add(shape.cycleBeats);
  if (!passage.to || to.compare(passage.to) <= 0) return { from, to };
  return from.compare(passage.to) < 0 ? { from, to: passage.to } : undefined;
}

/** Whether a bar (1-based; 0 and below come before the first) is one of click ahead of a passage, the take's own count-in aside. */
export const isCountIn = ({ passages }: Pick<Plan, 'passages'>, bar: number): boolean =>
  passages.some(({ fromBar, countInBars = 0 }) => bar < fromBar && bar >= fromBar - countInBars);

/** Whether a bar is without a click: one that counts in never is. */
export function isSilentIn(plan: Plan, bar: number): boolean {
  const { silentBars: rule } = plan;
  if (!rule) return false;
  const starts = countedFrom(plan, rule);
  const from = starts[firstFrom(starts, (first) => first, bar + 1) - 1] ?? 1;
  return isSilentBar(rule, bar - from + 1) && !isCountIn(plan, bar);
}

/** The first stretch without a click that begins after a bar, 1-based; undefined where the click never stops. */
export function silentAfter(plan: Plan, bar: number): BarStretch | undefined {
  const { silentBars: rule } = plan;
  if (!rule) return undefined;
  const starts = countedFrom(plan, rule);
  for (const [i, from] of starts.entries()) {
    const end = starts[i + 1] ?? Infinity;
    const upTo = Math.min(end - 1, Math.max(bar, from - 1) + longestRound(rule));
    const next = silentStretches(rule, upTo - from + 1).find(
      ({ fromBar }) => from + fromBar - 1 > bar,
    );
    if (next) {
      const toBar = Math.min(from + next.toBar - 1, end - 1);
      return { fromBar: from + next.fromBar - 1, toBar };
    }
  }
  return undefined;
}

/** Bars from one stretch without a click to the next at most. */
const longestRound = ({ sounding, silent, most }: SilentBars): number =>
  sounding + Math.max(silent, most) + 1;

const COUNTED_FROM = new WeakMap<Plan, readonly number[]>();

/** The bars from which those without a click are counted, ascending: the first, and where another tempo begins. */
function countedFrom(plan: Plan, { anewAtTempo }: SilentBars): readonly number[] {
  if (!anewAtTempo) return [1];
  const known = COUNTED_FROM.get(plan);
  if (known) return known;
  const { beatsPerBar } = plan.phrase.meter;
  const { changes } = plan.tempo;
  const bars = changes.flatMap(({ fromBeat, bpm }, i) => {
    if (i === 0) return 1;
    return bpm === changes[i - 1]!.bpm ? [] : Math.floor(fromBeat.valueOf() / beatsPerBar) + 1;
  });
  COUNTED_FROM.set(plan, bars);
  return bars;
}
