export type CaptureSubject =
  'tempo' | 'meter position' | 'subdivision' | 'cycle' | 'notes' | 'levels' | 'sticking';

/** What capture says about one thing it found. */
export interface CaptureFinding {
  readonly about: CaptureSubject;
  /** How sure, 0 to 1. */
  readonly confidence: number;
  /** Whether the confidence is at least the limit. */
  readonly sure: boolean;
  /** What was found, such as "5 partials, 8 times round". */
  readonly detail: string;
  /** The same as a sentence; starts with "Not sure" below the limit. */
  readonly sentence: string;
}

/** Below this capture says that it is not sure. Chosen so that most wrong findings in the benchmark fall below. */
export const SURE_FROM = 0.6;

/** @example captureFinding('tempo', 0.2, '92 bpm').sentence // => 'Not sure of the tempo: 92 bpm.' */
export function captureFinding(
  about: CaptureSubject,
  confidence: number,
  detail: string,
): CaptureFinding {
  const sure = confidence >= SURE_FROM;
  const sentence = `${sure ? `The ${about}` : `Not sure of the ${about}`}: ${detail}.`;
  return { about, confidence, sure, detail, sentence };
}
