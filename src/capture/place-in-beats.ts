import { beatsOfPulse, type Beat } from './pulse/beat-of-pulse';
import { SURE_FROM } from './capture-finding';
import type { PlayedStroke } from './played-stroke';
import { findPulse } from './pulse/pulse';
import { countOf } from '../words/words';

/** The pulse that the beats are counted in. */
export interface BeatPulse {
  /** Pulses a beat; undefined where a beat is not whole pulses and a pulse not whole beats. */
  readonly pulses: number | undefined;
  /** How sure the pulse is, 0 to 1. */
  readonly confidence: number;
}

/** Strokes counted in the beats of their own pulse. */
export interface BeatPlacement {
  /** Of each stroke, from bar 1 beat 1: the first stroke's beat. */
  readonly beats: readonly number[];
  readonly tempoBpm: number;
  readonly tempoConfidence: number;
  /** How sure bar 1 beat 1 is, 0 to 1. */
  readonly placeConfidence: number;
  readonly pulse: BeatPulse;
  /** Other tempi that it may as well be, such as "; or 80, 3 partials a beat"; empty where there is none. */
  readonly orElse: string;
}

/** Without a click the bar is only likely: sure of a beat is not sure of a bar. Chosen, not measured. */
const PLACE_WITHOUT_CLICK = 0.5;
/**
 * Nor is it ever sure how many pulses make a beat: even where one number alone gives 60 to 200 a minute, the pulse is
 * one and a half beats or the like in one phrase of ten. Just below what is called sure.
 */
const MOST_WITHOUT_CLICK = SURE_FROM - 0.01;
/** Another tempo is told from this likelihood on, and so many of them. Chosen, not measured. */
const WORTH_TELLING = 0.1;
const MOST_TOLD = 3;

/** Strokes in time order, placed among beats that are found in them; undefined where they keep to no pulse. */
export function placeInBeats(strokes: readonly PlayedStroke[]): BeatPlacement | undefined {
  const pulse = findPulse(strokes);
  const [beat, ...others] = pulse ? beatsOfPulse(strokes, pulse) : [];
  if (!pulse || !beat) return undefined;
  const { pulses, phase, likelihood } = beat;
  const inBeats = pulse.places.map((place) => (place - phase) / pulses);
  const bar = Math.floor(inBeats[0]! + 0.5 / pulses);
  const bpmOf = (counted: Beat) => 60e6 / (pulse.periodUs * counted.pulses);
  return {
    beats: inBeats.map((beat) => beat - bar),
    tempoBpm: Math.round(bpmOf(beat) * 100) / 100,
    tempoConfidence: Math.min(likelihood, pulse.confidence, MOST_WITHOUT_CLICK),
    placeConfidence: PLACE_WITHOUT_CLICK * likelihood,
    pulse: { pulses, confidence: pulse.confidence },
    orElse: others
      .filter((other) => other.likelihood >= WORTH_TELLING)
      .slice(0, MOST_TOLD)
      .map((other) => `; or ${Math.round(bpmOf(other))}, ${countedWords(other.pulses)}`)
      .join(''),
  };
}

function countedWords(pulses: number): string {
  if (pulses < 1) return `1 partial in ${Math.round(1 / pulses)} beats`;
  return `${countOf(pulses, 'partial')} a beat`;
}
