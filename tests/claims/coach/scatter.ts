import type { TimedNote } from '../../../src/match/timed-note';
import type { Voice } from '../../../src/phrase/model/voice';

/** How the offsets of successive strokes go together; each has the stationary standard deviation asked for. */
export const NOISES = ['white', 'AR(1) 0.5', 'AR(1) 0.7 shared'] as const;
export type Noise = (typeof NOISES)[number];

/** Share of the variance that all voices have in common. */
const IN_COMMON = 1 / 3;

/** A stationary autoregressive process of first order, variance 1 from the first value on. */
function autoregressive(r: number, normal: () => number): () => number {
  let value: number | undefined;
  return () =>
    (value = value === undefined ? normal() : r * value + Math.sqrt(1 - r * r) * normal());
}

/**
 * Offsets in ms of notes in time order, mean 0. AR(1) 0.5 is one process over all strokes in order; the shared one is a
 * process over the strokes in order for a third of the variance, and for the rest one a voice over its own strokes.
 */
export function scatterMs(
  notes: readonly TimedNote[],
  noise: Noise,
  sdMs: number,
  normal: () => number,
): number[] {
  switch (noise) {
    case 'white':
      return notes.map(() => sdMs * normal());
    case 'AR(1) 0.5': {
      const next = autoregressive(0.5, normal);
      return notes.map(() => sdMs * next());
    }
    case 'AR(1) 0.7 shared': {
      const common = autoregressive(0.7, normal);
      const ofVoice = new Map<Voice, () => number>();
      return notes.map(({ note: { voice } }) => {
        const own = ofVoice.get(voice) ?? autoregressive(0.7, normal);
        ofVoice.set(voice, own);
        return sdMs * (Math.sqrt(IN_COMMON) * common() + Math.sqrt(1 - IN_COMMON) * own());
      });
    }
  }
}

/** The correlation of the offsets that `scatterMs` gives two of these notes. */
export function correlationOf(
  notes: readonly TimedNote[],
  noise: Noise,
): (i: number, j: number) => number {
  switch (noise) {
    case 'white':
      return (i, j) => (i === j ? 1 : 0);
    case 'AR(1) 0.5':
      return (i, j) => 0.5 ** Math.abs(i - j);
    case 'AR(1) 0.7 shared': {
      const counts = new Map<Voice, number>();
      const places = notes.map(({ note: { voice } }) => {
        const place = counts.get(voice) ?? 0;
        counts.set(voice, place + 1);
        return { voice, place };
      });
      return (i, j) => {
        const [a, b] = [places[i]!, places[j]!];
        const own = a.voice === b.voice ? 0.7 ** Math.abs(a.place - b.place) : 0;
        return IN_COMMON * 0.7 ** Math.abs(i - j) + (1 - IN_COMMON) * own;
      };
    }
  }
}
