import { findBeat } from './beat-of-pulse';
import type { PlacedStroke, PlayedStroke } from './played-stroke';
import { findPulse } from './pulse';

export interface PlacedInBeats {
  /** In time order; without a click the first stroke's beat is bar 1 beat 1. */
  readonly strokes: readonly PlacedStroke[];
  readonly tempoBpm: number;
  readonly tempoConfidence: number;
  /** How sure bar 1 beat 1 is, 0 to 1. */
  readonly placeConfidence: number;
}

/** Without a click the bar is only likely: sure of a beat is not sure of a bar. Chosen, not measured. */
const PLACE_WITHOUT_CLICK = 0.5;

/** Strokes in time order, placed among beats: those of the click, or those found in them. */
export function placeInBeats(
  strokes: readonly PlayedStroke[],
  clickBpm: number | undefined,
): PlacedInBeats | undefined {
  if (clickBpm !== undefined)
    return {
      strokes: strokes.map((stroke) => ({ ...stroke, beat: (stroke.timeUs * clickBpm) / 60e6 })),
      tempoBpm: clickBpm,
      tempoConfidence: 1,
      placeConfidence: 1,
    };
  const pulse = findPulse(strokes);
  const beat = pulse && findBeat(strokes, pulse);
  if (!beat) return undefined;
  const { pulses, phase } = beat;
  const inBeats = pulse.places.map((place) => (place - phase) / pulses);
  const bar = Math.floor(inBeats[0]! + 0.5 / pulses);
  const tempoBpm = Math.round((60e6 / (pulse.periodUs * pulses)) * 100) / 100;
  return {
    strokes: strokes.map((stroke, i) => ({ ...stroke, beat: inBeats[i]! - bar })),
    tempoBpm,
    tempoConfidence: beat.confidence,
    placeConfidence: PLACE_WITHOUT_CLICK * beat.confidence,
  };
}
