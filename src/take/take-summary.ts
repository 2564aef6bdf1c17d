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
  readonly passed: boolean;
}

export interface StoredTakeSummary extends TakeSummary {
  readonly id: string;
}
