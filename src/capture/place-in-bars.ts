import type { Meter } from '../time/meter';
import type { DecodedTake } from './capture-take';
import { fitsGrid, inStepTempo } from './in-step';
import type { Corrections } from './corrections';
import { bestHearing, type BestHearing } from './hearing';
import { placeInBeats, type BeatPulse } from './place-in-beats';
import type { PlayedStroke, StrokeInBeats } from './played-stroke';
import { rigDelay, type RigDelay } from './rig-delay';

/** What is captured: strokes from bar 1 beat 1 where there was a click, and what is known of it. */
export interface CaptureInput extends Pick<DecodedTake, 'clickBpm' | 'meter' | 'bar1At'> {
  /** In time order. */
  readonly strokes: readonly PlayedStroke[];
}

/** Something taken for true, how sure, 0 to 1, and in words. */
export interface Statement {
  readonly confidence: number;
  readonly words: string;
}

/** Strokes as if they had been played to a click at `bpm`, bar 1 beat 1 at 0, and what is heard of them. */
export interface Placement {
  readonly strokes: readonly StrokeInBeats[];
  readonly bpm: number;
  readonly tempo: Statement;
  readonly start: Statement;
  readonly hearing: BestHearing;
  /** How sure the partials are, 0 to 1: that the grid is the likeliest, and that the strokes keep to it at all. */
  readonly gridConfidence: number;
  /** The tempo that the strokes are in step with, where they are not in step with this one. */
  readonly inStepBpm: number | undefined;
}

/** Strokes counted in beats. */
interface Counted {
  readonly beats: readonly number[];
  readonly bpm: number;
  readonly tempo: Statement;
  readonly start: Statement;
  readonly pulse?: BeatPulse | undefined;
}

/** Tempi that a click may have while another pulse is felt. */
export const RELATED_TEMPI: readonly number[] = [1, 2, 1 / 2, 3, 1 / 3, 3 / 2, 2 / 3, 4 / 3, 3 / 4];
/** Partials that a beat may have, to count the same partials in. */
export const COUNTED_IN: readonly number[] = [1, 2, 3, 4, 5, 6, 7, 8, 12];
/**
 * A tempo this near a related one means that one. Chosen, not measured: nobody says a tempo of free playing better, and
 * of a click it is rounded to whole beats a minute.
 */
const NEAR = { ofPulse: 0.04, ofClick: 0.004 };
/** A stroke so much ahead of a bar line, in beats, is in that bar. Chosen, not measured. */
const AHEAD = 0.125;
const DOUBTFUL = 0.5;
/** How sure of a tempo that the strokes are not in step with: hardly. Chosen, not measured. */
const OUT_OF_STEP = 0.1;
const BEATS_A_MINUTE = 'beats a minute';

/**
 * Strokes in time order, placed among beats by the click or by their own pulse, then as the corrections say.
 * Undefined when there is neither click, pulse nor a tempo that was said.
 */
export function placeInBars(
  { strokes, clickBpm, bar1At }: CaptureInput,
  { tempoBpm, firstOn, cyclePartials }: Corrections,
  meter: Meter,
): Placement | undefined {
  const maySwing = meter.unit === 4;
  const hear = (counted: Counted) => {
    const inBeats = retimed(strokes, counted);
    const { bpm, pulse } = counted;
    const told = { cyclePartials, pulses: pulse?.pulses };
    return { ...counted, inBeats, hearing: bestHearing(inBeats, 60e6 / bpm, maySwing, told) };
  };
  let placed: ReturnType<typeof hear> | undefined;
  if (clickBpm === undefined) {
    const counted = byPulse(strokes);
    placed = counted && hear(counted);
  } else {
    const click = { bpm: clickBpm, meter, bar1At };
    placed = hear(byClick(strokes, click));
    const delay = bar1At === 'count-in end' && rigDelay(placed.inBeats, placed.hearing, clickBpm);
    if (delay) placed = hear(byClick(strokes, click, delay));
  }
  if (tempoBpm !== undefined) {
    const near = clickBpm === undefined ? NEAR.ofPulse : NEAR.ofClick;
    placed = hear(atTempo(strokes, placed, tempoBpm, near));
  }
  if (placed && firstOn) placed = hear(beginningOn(firstOn, placed));
  if (!placed) return undefined;
  const { inBeats, hearing, bpm, tempo, start, pulse } = placed;
  const placement = { strokes: inBeats, bpm, tempo, start, hearing };
  // A pulse is found by how the strokes keep to it.
  if (pulse || fitsGrid(hearing)) {
    const gridConfidence = Math.min(hearing.confidence, pulse?.confidence ?? 1);
    return { ...placement, gridConfidence, inStepBpm: undefined };
  }
  const inStepBpm = inStepTempo(strokes, bpm);
  const words = `${tempo.words}${outOfStepWords(inStepBpm)}`;
  const confidence = tempoBpm === undefined ? OUT_OF_STEP : tempo.confidence;
  return {
    ...placement,
    tempo: { confidence, words },
    gridConfidence: Math.min(hearing.confidence, OUT_OF_STEP),
    inStepBpm,
  };
}

const outOfStepWords = (inStepBpm: number | undefined): string =>
  `, which the strokes are not in step with${inStepBpm === undefined ? '' : `; they are with ${inStepBpm}`}`;

/** Strokes as a click at the tempo of the beats would have had them. */
const retimed = (
  strokes: readonly PlayedStroke[],
  { beats, bpm }: Counted,
): readonly StrokeInBeats[] =>
  strokes.map((stroke, i) => {
    const timeUs = Math.round((beats[i]! * 60e6) / bpm);
    return { ...stroke, timeUs, beat: (timeUs * bpm) / 60e6 };
  });

function byPulse(strokes: readonly PlayedStroke[]): Counted | undefined {
  const found = placeInBeats(strokes);
  return (
    found && {
      beats: found.beats,
      bpm: found.tempoBpm,
      tempo: {
        confidence: found.tempoConfidence,
        words: `${Math.round(found.tempoBpm * 10) / 10} ${BEATS_A_MINUTE}${found.orElse}`,
      },
      pulse: found.pulse,
      start: {
        confidence: found.placeConfidence,
        words: 'bar 1 is taken to begin with the first stroke on a beat',
      },
    }
  );
}

interface Click extends Pick<CaptureInput, 'bar1At'> {
  readonly bpm: number;
  readonly meter: Meter;
}

/** Whoever waits some bars before beginning begins bar 1 then. */
function byClick(
  strokes: readonly PlayedStroke[],
  { bpm, meter: { beatsPerBar }, bar1At }: Click,
  delay?: RigDelay,
): Counted {
  const beats = strokes.map(({ timeUs }) => ((timeUs - (delay?.lateUs ?? 0)) * bpm) / 60e6);
  const waited = Math.max(0, Math.floor((beats[0]! + AHEAD) / beatsPerBar));
  const bar1 = bar1At === 'count-in end' ? 'where the count-in ends' : 'where the file begins';
  return {
    beats: beats.map((beat) => beat - waited * beatsPerBar),
    bpm,
    tempo: { confidence: 1, words: `${tempoShown(bpm)} ${BEATS_A_MINUTE}` },
    start: {
      confidence: delay?.isDoubtful ? DOUBTFUL : 1,
      words: `bar 1 is ${waited > 0 ? 'the bar in which the first stroke falls' : bar1}${delay ? delayWords(delay) : ''}`,
    },
  };
}

const delayWords = ({ lateUs }: RigDelay): string =>
  `; every stroke came about ${Math.abs(Math.round(lateUs / 1000))} ms ${lateUs < 0 ? 'early' : 'late'}, which is taken for the rig’s offset`;

/** A file states a click in whole microseconds a beat. @example tempoShown(116.00007) // => 116 */
export const tempoShown = (bpm: number): number => Math.round(bpm * 100) / 100;

/**
 * At a tempo that was said: other beats of the same pulse where it is related, by itself or through the
 * partials, else even beats from the first stroke on.
 */
function atTempo(
  strokes: readonly PlayedStroke[],
  heard: (Counted & { readonly hearing: BestHearing }) | undefined,
  bpm: number,
  near: number,
): Counted {
  const tempo = { confidence: 1, words: `${tempoShown(bpm)} ${BEATS_A_MINUTE}, as you said` };
  const ratio = heard && relatedBy(bpm / heard.bpm, heard.hearing.grid.subdivision, near);
  if (heard && ratio !== undefined)
    return {
      beats: heard.beats.map((beat) => beat * ratio),
      bpm,
      tempo,
      start: heard.start,
      pulse: countedAgain(heard.pulse, ratio),
    };
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
function relatedBy(about: number, subdivision: number, near: number): number | undefined {
  const apart = (ratio: number) => Math.abs(Math.log(about / ratio));
  const counted = COUNTED_IN.map((parts) => subdivision / parts);
  const [nearest] = [...RELATED_TEMPI, ...counted].sort((a, b) => apart(a) - apart(b));
  return nearest !== undefined && apart(nearest) < near ? nearest : undefined;
}

/** The same beats, the first stroke on a partial of the bar that the player says. */
function beginningOn(
  { partial, subdivision }: NonNullable<Corrections['firstOn']>,
  counted: Counted,
): Counted {
  const shift = (partial - Math.round(counted.beats[0]! * subdivision)) / subdivision;
  return {
    ...counted,
    beats: counted.beats.map((beat) => beat + shift),
    start: { confidence: 1, words: 'the first stroke falls where you said' },
  };
}
