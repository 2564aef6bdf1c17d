import type { Player } from './player';

/** One layer at one tempo, as far as the log tells of it. */
export interface TrialSummary {
  /** 1-based. */
  readonly layer: number;
  readonly layerName: string;
  /** What was to be played, whatever it was called: `targetKey` of the layer. */
  readonly target: string;
  readonly bpm: number;
  /** Bars of its first and last note; 0 holds a pickup. */
  readonly fromBar: number;
  readonly toBar: number;
  readonly notes: number;
  /** Share of the notes, 0 to 1, extra strokes counting against it. */
  readonly asWritten?: number | undefined;
  /** Early negative. */
  readonly offsetMeanMs?: number | undefined;
  readonly spreadMs?: number | undefined;
  /** By a person, and not taken back. */
  readonly passed: boolean;
  /** The first sentence of the coach. */
  readonly finding: string;
  /** What kind of finding that is; absent in takes from before it was kept. */
  readonly code?: string | undefined;
}

/** What the log tells of a take without opening it. Figures that the take cannot support are left out. */
export interface TakeSummary {
  /** ISO 8601. */
  readonly startedAt: string;
  readonly phraseTitle: string;
  /** 1-based: the layer played last. */
  readonly layer: number;
  readonly layerName: string;
  /** Every layer played, in the order of playing: "2 Accents"; absent in takes kept before this was. */
  readonly layersPlayed?: readonly string[];
  readonly tempoBpm: number;
  readonly seconds: number;
  readonly notes: number;
  /** Share of the notes, 0 to 1. */
  readonly asWritten?: number | undefined;
  /** Early negative. */
  readonly offsetMeanMs?: number | undefined;
  readonly spreadMs?: number | undefined;
  readonly contrastDb?: number | undefined;
  /** Whether the layer played last was, by a person. */
  readonly passed: boolean;
  /** Absent in takes from before it was kept. */
  readonly player?: Player | undefined;
  /** Every layer at every tempo in the order of playing; absent in takes from before it was kept. */
  readonly trials?: readonly TrialSummary[];
}

export interface StoredTakeSummary extends TakeSummary {
  readonly id: string;
}
