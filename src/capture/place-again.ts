import { RELATED_TEMPI } from './heard-in-file';
import { placeInBeats, type BeatPulse } from './place-in-beats';
import type { PlayedStroke } from './played-stroke';
import type { Meter } from '../time/meter';
import type { Corrections } from './corrections';
import type { Played } from './played';

interface Said {
  readonly confidence: number;
  readonly words: string;
}

/** Strokes as if they had been played to a click at `bpm`, bar 1 beat 1 at 0. */
export interface PlacedAgain {
  readonly strokes: readonly PlayedStroke[];
  readonly bpm: number;
  /** Where the first stroke falls, beats from bar 1 beat 1. */
  readonly firstBeat: number;
  readonly tempo: Said;
  readonly start: Said;
  /** The pulse that the beats are counted in, where it was found in the strokes. */
  readonly pulse?: BeatPulse | undefined;
}

interface Placed {
  readonly beats: readonly number[];
  readonly bpm: number;
  readonly tempo: Said;
  readonly start: Said;
  readonly pulse?: BeatPulse | undefined;
}

/** A tempo this near a related one means that one. Chosen, not measured: nobody says a tempo of free playing better. */
const NEAR = 0.04;
/** A stroke so much ahead of a bar line, in beats, is in that bar. Chosen, not measured. */
const AHEAD = 0.125;
const HEARD = 'beats a minute';
const SAID = 'beats a minute, as you said';

/**
 * Strokes placed among beats by the click or by their own pulse, then as the corrections say. Undefined when
 * there is neither click, pulse nor a tempo that was said. `subdivision` is what was heard before a tempo
 * was said.
 */
export function placeAgain(
  { strokes, clickBpm, fileName }: Pick<Played, 'strokes' | 'clickBpm' | 'fileName'>,
  { tempoBpm, firstOn }: Corrections,
  meter: Meter,
  subdivision?: number,
): PlacedAgain | undefined {
  if (strokes.length === 0) return undefined;
  const bar1 = fileName === undefined ? 'where the count-in ends' : 'where the file begins';
  const heard = clickBpm === undefined ? byPulse(strokes) : byClick(strokes, clickBpm, meter, bar1);
  const placed = tempoBpm === undefined ? heard : atTempo(strokes, heard, tempoBpm, subdivision);
  if (!placed) return undefined;
  const { bpm, tempo } = placed;
  const firstAt = placed.beats[0]!;
  const shift = firstOn
    ? (firstOn.partial - Math.round(firstAt * firstOn.subdivision)) / firstOn.subdivision
    : 0;
  return {
    strokes: strokes.map((stroke, i) => ({
      ...stroke,
      timeUs: Math.round(((placed.beats[i]! + shift) * 60e6) / bpm),
    })),
    bpm,
    firstBeat: firstAt + shift,
    tempo,
    start: firstOn
      ? { confidence: 1, words: 'the first stroke falls where you said' }
      : placed.start,
    pulse: placed.pulse,
  };
}

const byPulse = (strokes: readonly PlayedStroke[]): Placed | undefined => {
  const found = placeInBeats(strokes, undefined);
  return (
    found && {
      beats: found.strokes.map(({ beat }) => beat),
      bpm: found.tempoBpm,
      tempo: { confidence: found.tempoConfidence, words: `${HEARD}${found.orElse}` },
      pulse: found.pulse,
      start: {
        confidence: found.placeConfidence,
        words: 'bar 1 is taken to begin with the first stroke on a beat',
      },
    }
  );
};

/** Whoever waits some bars before beginning begins bar 1 then. */
function byClick(
  strokes: readonly PlayedStroke[],
  bpm: number,
  { beatsPerBar }: Meter,
  bar1: string,
): Placed {
  const beats = strokes.map(({ timeUs }) => (timeUs * bpm) / 60e6);
  const waited = Math.max(0, Math.floor((beats[0]! + AHEAD) / beatsPerBar));
  return {
    beats: beats.map((beat) => beat - waited * beatsPerBar),
    bpm,
    tempo: { confidence: 1, words: HEARD },
    start: {
      confidence: 1,
      words: `bar 1 is ${waited > 0 ? 'the bar in which the first stroke falls' : bar1}`,
    },
  };
}

/** Partials that a beat may have, to count the same partials in. */
export const COUNTED_IN: readonly number[] = [1, 2, 3, 4, 5, 6, 7, 8, 12];

/**
 * At a tempo that was said: other beats of the same pulse where it is related, by itself or through the
 * partials, else even beats from the first stroke on.
 */
function atTempo(
  strokes: readonly PlayedStroke[],
  heard: Placed | undefined,
  bpm: number,
  subdivision: number | undefined,
): Placed {
  const tempo = { confidence: 1, words: SAID };
  const ratio = heard && relatedBy(bpm / heard.bpm, subdivision);
  if (heard && ratio !== undefined) {
    const { beats, pulse } = heard;
    return {
      ...heard,
      beats: beats.map((beat) => beat * ratio),
      bpm,
      tempo,
      pulse: countedAgain(pulse, ratio),
    };
  }
  const startUs = strokes[0]!.timeUs;
  return {
    beats: strokes.map(({ timeUs }) => ((timeUs - startUs) * bpm) / 60e6),
    bpm,
    tempo,
    start: { confidence: 0, words: 'bar 1 is taken to begin with the first stroke' },
  };
}

/** The same pulse in beats that are so many times as many. */
function countedAgain(pulse: BeatPulse | undefined, ratio: number): BeatPulse | undefined {
  const pulses = pulse?.pulses && pulse.pulses / ratio;
  if (!pulse || !pulses) return pulse;
  const whole = Math.round(Math.max(pulses, 1 / pulses));
  const near = pulses < 1 ? 1 / whole : whole;
  return { ...pulse, pulses: Math.abs(near - pulses) < 1e-6 ? near : undefined };
}

/** The simple ratio that is meant by about this one, if any is near. */
function relatedBy(about: number, subdivision: number | undefined): number | undefined {
  const counted = subdivision === undefined ? [] : COUNTED_IN.map((parts) => subdivision / parts);
  const apart = (ratio: number) => Math.abs(Math.log(about / ratio));
  const [nearest] = [...RELATED_TEMPI, ...counted].sort((a, b) => apart(a) - apart(b));
  return nearest !== undefined && apart(nearest) < NEAR ? nearest : undefined;
}
