import { pickupNotes } from '../phrase/layers/expand';
import { layerShape, type LayerShape } from '../phrase/layers/layer-shape';
import type { Passage } from '../phrase/model/passage';
import type { Phrase } from '../phrase/model/phrase';
import { beats, type Beats } from '../time/beats';
import type { SilentBars } from '../time/silent-bars';
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
  readonly shape: LayerShape;
  /** Its bar line. */
  readonly from: Beats;
  /** The next passage's bar line; undefined for the last. */
  readonly to: Beats | undefined;
  /** Where its notes end: the next passage's pickup takes the place of the last partials. */
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
  const barLine = (bar: number) => beats((bar - 1) * phrase.meter.beatsPerBar);
  const to = next && barLine(next.fromBar);
  const pickup = next && pickupNotes(phrase, next.layer)[0];
  return {
    ...passage,
    index,
    shape: layerShape(phrase, passage.layer),
    from: barLine(passage.fromBar),
    to,
    notesTo: to && pickup ? to.add(pickup.onset) : to,
  };
}

/** A passage's cycle (1-based), cut where the next passage begins; undefined when it would lie beyond. */
export function cycleSpan(passage: PassageSpan, cycle: number): CycleSpan | undefined {
  const { shape } = passage;
  const from = passage.from.add(shape.startBeats).add(shape.cycleBeats.mul(cycle - 1));
  const to = from.add(shape.cycleBeats);
  if (!passage.to || to.compare(passage.to) <= 0) return { from, to };
  return from.compare(passage.to) < 0 ? { from, to: passage.to } : undefined;
}
