import * as fc from 'fast-check';
import type { Transcription } from '../../src/capture/transcribe';
import type { PlayedStroke } from '../../src/capture/played-stroke';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { timedNotes } from '../../src/match/timed-notes';
import { targetPattern, type TargetPattern } from '../../src/phrase/decompose/target-pattern';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import { parseSwing, swings, swungPartial } from '../../src/phrase/model/swing';
import type { Voice } from '../../src/phrase/model/voice';
import { chance } from '../../src/time/chance';
import { simulate } from '../../src/take/simulate';
import { readStrokes } from '../../src/kit/read-strokes';
import { steadyTempo } from '../../src/time/tempo';
import { remainder } from '../../src/time/whole';
import { arbitraryPhrase } from '../phrase/arbitrary-phrase';
import { libraryPhrases } from '../phrase/library-phrases';
import { transcribed } from './transcribed';

/** A phrase at a layer, at a tempo, to be played so many times round. */
export interface Playing {
  readonly phrase: Phrase;
  readonly layer: number;
  readonly tempoBpm: number;
  readonly seed: number;
}

export interface Player {
  readonly spreadMs: number;
  /** Shares of the strokes. */
  readonly missed: number;
  readonly extra: number;
  readonly velocitySpread: number;
}

/** A player as most are: spread 12 ms, 3 % missed, 3 % extra, velocities that scatter by 8. Chosen, not measured. */
export const PLAYER: Player = { spreadMs: 12, missed: 0.03, extra: 0.03, velocitySpread: 8 };
const ROUNDS = 6;
const LEAST_STROKES = 48;
/** Five times the spread: closer partials cannot be told apart by anybody. */
const SHORTEST_PARTIAL_MS = 60;
const SUBDIVISIONS = [1, 2, 3, 4, 5, 6, 7, 8, 12];
const FEET: readonly Voice[] = ['bass drum', 'hi-hat pedal', 'hi-hat foot splash'];
const ON_KIT = new Set(GENERAL_MIDI.pads.map(({ voice }) => voice));

/** Whether a phrase can be played by two hands and two feet on a kit, and told apart at this tempo. */
function isPlayable({ phrase, layer, tempoBpm }: Playing): boolean {
  const pattern = targetPattern(phrase, layer);
  if (!pattern.ok || pattern.value.cyclePartials > 160) return false;
  const { notes, subdivision, swing, cyclePartials } = pattern.value;
  if (notes.length === 0 || !SUBDIVISIONS.includes(subdivision)) return false;
  const ratio = swing && swings(phrase.meter, subdivision) ? parseSwing(swing)!.valueOf() : 1;
  if (ratio > 1 && subdivision > 4) return false;
  const partialMs = 60_000 / tempoBpm / subdivision;
  if ((partialMs * 2) / (1 + ratio) < SHORTEST_PARTIAL_MS) return false;
  if ((cyclePartials / subdivision) * ROUNDS * (60 / tempoBpm) > 180) return false;
  return notes.every(
    ({ limb, voice }) =>
      ON_KIT.has(voice) &&
      (limb === 'K'
        ? voice === 'bass drum'
        : limb === 'F'
          ? voice === 'hi-hat pedal'
          : !FEET.includes(voice)),
  );
}

/** So many random phrases, the library's among them; everything follows from the seed. */
export function randomPlayings(count: number, seed: number): Playing[] {
  const { share, next } = chance(seed);
  const library = libraryPhrases().map(({ text }) => {
    const parsed = parsePhrase(text);
    if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
    return parsed.value;
  });
  const random = fc.sample(arbitraryPhrase(), { seed, numRuns: count * 12 });
  const playings: Playing[] = [];
  for (const phrase of [...library, ...random]) {
    const layer = phrase.layers.length;
    const playing = { phrase, layer, tempoBpm: 60 + Math.floor(share() * 141), seed: next() };
    if (playings.length < count && isPlayable(playing)) playings.push(playing);
  }
  return playings;
}

/**
 * The strokes of a simulated player who plays a phrase round and round, from bar 1 beat 1. The player has a
 * kit without faults, so nothing is set aside.
 */
export function playRounds(
  { phrase, layer, tempoBpm, seed }: Playing,
  player = PLAYER,
): PlayedStroke[] {
  const { cyclePartials, subdivision, notes } = patternOf(phrase, layer);
  const rounds = Math.max(ROUNDS, Math.ceil(LEAST_STROKES / notes.length));
  const beats = (rounds * cyclePartials) / subdivision + phrase.meter.beatsPerBar;
  const plan = {
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempo: steadyTempo(tempoBpm),
    windows: { toleranceMs: undefined, reachMs: undefined },
  };
  const due = timedNotes(plan, Math.round((beats * 60e6) / tempoBpm) - 1);
  const { messages } = simulate(due, player, seed);
  return [...readStrokes(messages, GENERAL_MIDI).strokes];
}

/** What capture got right of a playing, and of what it said that it was not sure. */
export interface Recovered {
  /** As many beats as it takes to come round, and no more. */
  readonly cycle: boolean;
  /** Every note at its place against the bar, on a grid no finer than the phrase's: position and subdivision. */
  readonly places: boolean;
  readonly voices: boolean;
  readonly levels: boolean;
  readonly all: boolean;
  readonly sure: boolean;
  readonly captured: Transcription | undefined;
}

/** Plays a phrase, captures it, and compares what sounds: where, on what, how loud, and when again. */
export function recover(playing: Playing, clickBpm = playing.tempoBpm, player = PLAYER): Recovered {
  const { phrase, layer } = playing;
  const captured = transcribed(playRounds(playing, player), { clickBpm, meter: phrase.meterText });
  const none = { cycle: false, places: false, voices: false, levels: false, all: false };
  if (!captured) return { ...none, sure: false, captured: undefined };
  const sure = captured.findings.every(({ sure, about }) => sure || about === 'sticking');
  const written = patternOf(phrase, layer);
  const { pattern } = captured;
  const truth = soundOf(written, phrase);
  const heard = soundOf(pattern, phrase);
  const length = 2 * Math.max(truth.beats, heard.beats);
  const sounds = (what: 'place' | 'voice' | 'level', sound: Sound) =>
    [...new Set(sound.notes(length).map((note) => note[what]))].sort().join();
  const same = (what: 'place' | 'voice' | 'level') => sounds(what, truth) === sounds(what, heard);
  const cycle = Math.abs(truth.beats - pattern.cyclePartials / pattern.subdivision) < 1e-6;
  const onGrid = pattern.subdivision <= written.subdivision;
  const [places, voices, levels] = [same('place') && onGrid, same('voice'), same('level')];
  return { cycle, places, voices, levels, all: cycle && places && levels, sure, captured };
}

export interface SoundNote {
  /** Beat from bar 1, with the voice, with the level: each tells more. */
  readonly place: string;
  readonly voice: string;
  readonly level: string;
}
export interface Sound {
  /** After how many beats the same sounds again, the shortest. */
  readonly beats: number;
  notes(beats: number): SoundNote[];
}

const RANKS = ['ghost', 'tap', 'accent'];

export function patternOf(phrase: Phrase, layer: number): TargetPattern {
  const pattern = targetPattern(phrase, layer);
  if (!pattern.ok) throw new Error(pattern.errors[0]!.message);
  return pattern.value;
}

/** What sounds of a pattern once it goes round: its main notes, the loudest where two hands strike one drum. */
export function soundOf(pattern: TargetPattern, { meter }: Phrase): Sound {
  const { subdivision, cyclePartials, displace = 0 } = pattern;
  const swing = pattern.swing && swings(meter, subdivision) ? parseSwing(pattern.swing) : undefined;
  const cells = Array.from({ length: cyclePartials }, () => new Map<Voice, string>());
  for (const { partial, voice, level } of pattern.notes) {
    const cell = cells[remainder(partial + displace, cyclePartials)]!;
    const known = cell.get(voice);
    if (!known || RANKS.indexOf(level) > RANKS.indexOf(known)) cell.set(voice, level);
  }
  const keys = cells.map((cell) =>
    [...cell]
      .map((entry) => entry.join())
      .sort()
      .join(),
  );
  let shortest = cyclePartials;
  for (let length = cyclePartials; length >= 1; length--)
    if (keys.every((key, i) => key === keys[(i + length) % cyclePartials])) shortest = length;
  return {
    beats: shortest / subdivision,
    notes: (beats) => {
      const notes: SoundNote[] = [];
      for (let partial = 0; partial < Math.round(beats * subdivision); partial++) {
        const inBeat = partial % subdivision;
        const at = swing
          ? swungPartial(inBeat, subdivision, swing).valueOf()
          : inBeat / subdivision;
        const place = (Math.floor(partial / subdivision) + at).toFixed(4);
        for (const [voice, level] of cells[partial % cyclePartials]!)
          notes.push({ place, voice: `${place} ${voice}`, level: `${place} ${voice} ${level}` });
      }
      return notes;
    },
  };
}
