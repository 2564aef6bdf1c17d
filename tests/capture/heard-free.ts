import type { Transcription } from '../../src/capture/transcribe';
import type { CaptureFinding } from '../../src/capture/capture-finding';
import type { TargetPattern } from '../../src/phrase/decompose/target-pattern';
import { gcd } from '../../src/time/whole';
import { PLAYER, patternOf, playRounds, soundOf, type Playing } from './played-rounds';
import { transcribed } from './transcribed';

/** What capture got right of a phrase that was played without a click, and what it was sure of. */
export interface HeardFree {
  /** The duration of the grid that the notes need, within 1 %. */
  readonly partial: boolean;
  /** The duration of the cycle, within 1 %; of an odd number of swung partials twice as long too, when long and short meet again. */
  readonly cycle: boolean;
  readonly tempo: boolean;
  /** One of the other tempi that the sentence tells. */
  readonly otherTempo: boolean;
  /** The tempo, and the partial with it. */
  readonly subdivision: boolean;
  readonly sure: ReadonlySet<CaptureFinding['about']>;
  readonly captured: Transcription | undefined;
}

const near = (a: number, b: number): boolean => Math.abs(a / b - 1) < 0.01;

/** Plays a phrase as `recover` does, but later and without a click, and compares durations. */
export function heardFree(playing: Playing, player = PLAYER): HeardFree {
  const { phrase, layer, tempoBpm } = playing;
  const strokes = playRounds(playing, player).map((stroke) => ({
    ...stroke,
    timeUs: stroke.timeUs + 3_210_000,
  }));
  const captured = transcribed(strokes, { meter: phrase.meterText });
  if (!captured)
    return {
      partial: false,
      cycle: false,
      tempo: false,
      otherTempo: false,
      subdivision: false,
      sure: new Set(),
      captured: undefined,
    };
  const { pattern, findings } = captured;
  const truth = durations(patternOf(phrase, layer), playing, tempoBpm);
  const heard = durations(pattern, playing, pattern.tempoBpm);
  const cycleUs = (pattern.cyclePartials * 60e6) / (pattern.subdivision * pattern.tempoBpm);
  const partial = near(heard.partialUs, truth.partialUs);
  const tempo = near(pattern.tempoBpm, tempoBpm);
  return {
    partial,
    cycle: truth.cyclesUs.some((trueUs) => near(cycleUs, trueUs)),
    tempo,
    otherTempo: [...findings[0]!.sentence.matchAll(/; or (\d+)/g)].some(
      ([, bpm]) => Math.abs(Number(bpm) - tempoBpm) <= 1,
    ),
    subdivision: tempo && partial,
    sure: new Set(findings.filter(({ sure }) => sure).map(({ about }) => about)),
    captured,
  };
}

/** Parts of a beat that every place of a phrase is whole of: subdivisions to 8 and 12, and every swing. */
const PARTS = 840;

/** The longest partial on whose grid all notes are, and how long the cycle is. */
function durations(pattern: TargetPattern, { phrase }: Playing, bpm: number) {
  const sound = soundOf(pattern, phrase);
  const beats = sound.beats * pattern.subdivision;
  const places = sound.notes(beats).map(({ place }) => Math.round(Number(place) * PARTS));
  const apart = places.map((place) => place - places[0]!);
  const parts = apart.reduce(gcd, Math.round(beats * PARTS));
  const beatUs = 60e6 / bpm;
  const cycleUs = sound.beats * beatUs;
  const isSwungOdd = pattern.swing !== undefined && (sound.beats * pattern.subdivision) % 2 > 0.5;
  return {
    cyclesUs: isSwungOdd ? [cycleUs, 2 * cycleUs] : [cycleUs],
    partialUs: (parts / PARTS) * beatUs,
  };
}
