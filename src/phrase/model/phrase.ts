import type { Beats } from '../../time/beats';
import type { Meter } from '../../time/meter';
import type { Level } from './level';
import type { Limb } from './limb';
import type { Voice } from './voice';

/** A stroke of the grouping: one limb, with how many grace notes ahead of it (flam 1, drag 2) and by which hand. */
export interface RootStroke {
  readonly limb: Limb;
  readonly graces: readonly Limb[];
}

/** What sounds on one partial of the grouping; empty for a rest. */
export type RootStep = readonly RootStroke[];

/** Places that come round after so many partials, whatever the cycle. */
export interface Every {
  readonly partials: number;
  /** 1-based among those partials, the first of which is bar 1 beat 1. */
  readonly at: readonly number[];
}

/**
 * Selects notes as the changes before left them; every key given must hold. A pickup has no positions, no
 * numbers and no places of an `every`, so it is reached by the other keys only.
 */
export interface Selector {
  readonly limb?: Limb;
  /** 1-based partials of the cycle. */
  readonly positions?: readonly number[];
  /**
   * 1-based count of the note's limb within the cycle; silent strokes count, grace notes do not and
   * have the number of their main note.
   */
  readonly nth?: readonly number[];
  /** Beats of the bar as mixed numbers, such as "2 1/2". */
  readonly beats?: readonly string[];
  readonly every?: Every;
  readonly voice?: Voice;
  readonly level?: Level;
  /** Grace notes instead of main notes; each member of `any` says it for itself. */
  readonly grace?: boolean;
  readonly not?: Selector;
  readonly any?: readonly Selector[];
}

export type Grace = 'none' | 'flam' | 'drag';

export interface Setting {
  readonly voice?: Voice;
  readonly level?: Level;
  readonly limb?: Limb;
  readonly silent?: boolean;
  readonly grace?: Grace;
}

export interface PickupStroke {
  readonly partialsBefore: number;
  readonly limb: Limb;
  readonly voice?: Voice;
  readonly level?: Level;
}

export interface AddedStroke {
  readonly position: number;
  readonly limb: Limb;
  readonly voice?: Voice;
  readonly level?: Level;
}

/** What a layer changes, as plain data; swing and beats are text, and right where the phrase has been checked. */
export type Change =
  | { readonly kind: 'set'; readonly where: Selector; readonly set: Setting }
  | { readonly kind: 'pickup'; readonly pickup: readonly PickupStroke[] }
  | {
      readonly kind: 'accentEvery';
      readonly accentEvery: number;
      readonly from: number;
      readonly where: Selector;
    }
  | { readonly kind: 'displace'; readonly displace: number }
  | { readonly kind: 'subdivision'; readonly subdivision: number }
  | { readonly kind: 'swing'; readonly swing: string }
  | { readonly kind: 'add'; readonly add: readonly AddedStroke[] };

/** Long to short part of a swung beat, 1:1 to 4:1. */
export type SwingRatio = Beats;

export interface Layer {
  readonly name: string;
  readonly changes: readonly Change[];
  /** What a muted layer would change; it lays nothing on, so `changes` is empty. Not checked against the phrase. */
  readonly muted?: readonly Change[];
}

/** A phrase that has been checked: every layer can be expanded. */
export interface Phrase {
  readonly title: string;
  readonly meter: Meter;
  readonly meterText: string;
  /** Beats per minute. */
  readonly tempoBpm: number;
  /** Partials per beat, 1 to 12, before any layer changes it. */
  readonly subdivision: number;
  /** The grouping as it was written. */
  readonly groupingText: string;
  readonly grouping: readonly RootStep[];
  /** Partials after which the phrasing repeats. */
  readonly cycle: number;
  /** Only where meter and subdivision have off-beat eighths; elsewhere it rests. */
  readonly swing: SwingRatio | undefined;
  readonly layers: readonly Layer[];
}
