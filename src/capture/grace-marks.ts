import type { Voice } from '../phrase/model/voice';
import { isFootVoice } from '../phrase/playability/places';
import type { StrokeInBeats, PlayedStroke } from './played-stroke';

/** Grace notes come at most this long ahead of the next stroke. Chosen, not measured: drum rudiments are closer. */
const MOST_AHEAD_US = 50_000;
/** ... and no longer than this share of a partial, so that even strokes in a quick run are none. Chosen, not measured. */
const MOST_OF_PARTIAL = 0.6;
/** Two hands meant together on one drum are closer than this. Chosen, not measured: half of a usual spread's difference. */
const TOGETHER_US = 8_000;

/**
 * For each stroke, in time order, the index of the later stroke of the same voice that it may be a grace
 * note of, or -1. Whether it is one is for the rounds to say.
 */
export function graceMarks(strokes: readonly StrokeInBeats[], partialUs: number): Int32Array {
  const most = Math.min(MOST_AHEAD_US, partialUs * MOST_OF_PARTIAL);
  const marks = new Int32Array(strokes.length).fill(-1);
  const two = new Set<number>();
  const next = new Map<Voice, number>();
  for (let i = strokes.length - 1; i >= 0; i--) {
    const stroke = strokes[i]!;
    const later = next.get(stroke.voice);
    next.set(stroke.voice, i);
    if (later === undefined || isFootVoice(stroke.voice)) continue;
    const gap = strokes[later]!.timeUs - stroke.timeUs;
    if (gap < TOGETHER_US || gap > most) continue;
    const main = marks[later]!;
    if (main < 0) marks[i] = later;
    else if (
      marks[main]! < 0 &&
      strokes[main]!.timeUs - stroke.timeUs <= 2 * most &&
      !two.has(main)
    ) {
      marks[i] = main;
      two.add(main);
    }
  }
  return marks;
}

/** How long before the next of its voice each stroke falls, ms; Infinity where none follows, and for feet. */
export function graceLeadsMs(strokes: readonly PlayedStroke[]): Float64Array {
  const leads = new Float64Array(strokes.length).fill(Infinity);
  const next = new Map<Voice, number>();
  for (let i = strokes.length - 1; i >= 0; i--) {
    const { voice, timeUs } = strokes[i]!;
    if (isFootVoice(voice)) continue;
    leads[i] = ((next.get(voice) ?? Infinity) - timeUs) / 1000;
    next.set(voice, timeUs);
  }
  return leads;
}

/** 1 for every stroke, in time order, that is so close ahead of the next of its voice that it may be a grace note. */
export const mayBeGrace = (strokes: readonly PlayedStroke[]): Uint8Array =>
  Uint8Array.from(graceLeadsMs(strokes), (leadMs) => (leadMs <= MOST_AHEAD_US / 1000 ? 1 : 0));
