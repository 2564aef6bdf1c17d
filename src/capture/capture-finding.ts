/** What capture says about one thing it found. */
export interface CaptureFinding {
  readonly about:
    'tempo' | 'meter position' | 'subdivision' | 'cycle' | 'notes' | 'levels' | 'sticking';
  /** How sure, 0 to 1. */
  readonly confidence: number;
  /** Whether the confidence is at least the limit. */
  readonly sure: boolean;
  /** What was found; starts with "Not sure" below the limit. */
  readonly sentence: string;
}

/** Below this capture says that it is not sure. Chosen so that most wrong findings in the benchmark fall below. */
export const SURE_FROM = 0.6;

/** @example captureFinding('tempo', 0.2, '92 bpm').sentence // => 'Not sure of the tempo: 92 bpm.' */
export function captureFinding(
  about: CaptureFinding['about'],
  confidence: number,
  found: string,
): CaptureFinding {
  const sure = confidence >= SURE_FROM;
  const sentence = sure ? `The ${about}: ${found}.` : `Not sure of the ${about}: ${found}.`;
  return { about, confidence, sure, sentence };
}
