import type { Kit } from '../kit/kit';
import { padFor } from '../kit/pad-for';
import { GENERAL_MIDI } from '../kit/built-in-kits';
import { USUAL_VELOCITIES, type Level } from '../phrase/model/level';
import type { Note } from '../phrase/model/note';
import type { Voice } from '../phrase/model/voice';
import { chance } from '../time/chance';
import type { RawMessage } from '../kit/raw-message';
import { clamp } from '../time/whole';

/** The faults of a simulated player; every one left out is absent. */
export interface Faults {
  /** Mean offset in milliseconds, early negative. */
  readonly biasMs?: number;
  /** Standard deviation of the offsets in milliseconds, normally distributed. */
  readonly spreadMs?: number;
  /** Growth of the offset in milliseconds per minute: positive slows down. */
  readonly driftMsPerMinute?: number;
  /** Share of the ghosts played as loud as taps, 0 to 1. */
  readonly loudGhosts?: number;
  /** Shares of the notes struck on another voice, left out, and followed by a stroke too many. */
  readonly wrongVoices?: number;
  readonly missed?: number;
  readonly extra?: number;
  /** After so many cycles everything comes `slipMs` later (a partial, say), as if the place was lost. */
  readonly lostPlace?: { readonly afterCycles: number; readonly slipMs: number };
  /** Mean velocity of each level, and its standard deviation. */
  readonly velocities?: Readonly<Record<Level, number>>;
  readonly velocitySpread?: number;
}

/** What a simulated stroke is, or the note that was left out. */
export interface SimulatedStroke {
  /** Index of the note it was meant for. */
  readonly note: number;
  /** Missed too when the kit has no pad for the voice. */
  readonly kind: 'played' | 'wrong voice' | 'missed' | 'extra';
  /** Integer microseconds. */
  readonly timeUs: number;
  /** The voice struck. */
  readonly voice: Voice;
  readonly velocity: number;
  readonly loudGhost: boolean;
}

export interface SimulatedTake {
  /** In time order. */
  readonly messages: readonly RawMessage[];
  /** One entry a note and one an extra stroke, in the order of the notes. */
  readonly truth: readonly SimulatedStroke[];
}

export interface SimulatedPlayer {
  /** Plays the next note, due at `timeUs`: zero to three messages, not yet in time order with the rest. */
  play(note: Note, timeUs: number): SimulatedTake;
}

/** What a hand or foot strikes by mistake. */
const MISTAKEN: readonly Voice[] = ['snare', 'high tom', 'mid tom', 'floor tom', 'ride', 'crash'];
/** A stroke too many comes this long after its note, in milliseconds, evenly spread. */
const EXTRA_AFTER_MS = { from: 40, to: 160 };
const NOTE_ON = 0x99;
const CONTROL_CHANGE = 0xb9;

/**
 * A player with dialled faults, note by note; `seed` decides everything that is left to chance.
 * Every note takes the same amount of chance, so dialling one fault leaves the others where they are.
 * Without faults every stroke is exactly in time and at the centre of its level.
 */
export function createSimulatedPlayer(
  faults: Faults,
  seed: number,
  kit: Kit = GENERAL_MIDI,
): SimulatedPlayer {
  const { next, share, normal } = chance(seed);
  const { biasMs = 0, spreadMs = 0, driftMsPerMinute = 0, lostPlace } = faults;
  const { loudGhosts = 0, wrongVoices = 0, missed = 0, extra = 0 } = faults;
  const { velocities = USUAL_VELOCITIES, velocitySpread = 0 } = faults;
  const velocityAt = (level: Level, deviation: number) =>
    clamp(Math.round(velocities[level] + deviation * velocitySpread), 1, 127);
  const mistakable = MISTAKEN.filter((voice) => playable(voice, kit));
  let count = 0;

  return {
    play(note, dueUs) {
      const index = count++;
      const deviation = normal();
      const loudness = normal();
      const loudGhost = share() < loudGhosts && note.level === 'ghost';
      const mistakes = mistakable.filter((voice) => voice !== note.voice);
      const mistaken = mistakes[next() % mistakes.length];
      const isWrong = share() < wrongVoices && mistaken !== undefined;
      const isMissed = share() < missed;
      const isExtra = share() < extra;
      const extraMs = EXTRA_AFTER_MS.from + share() * (EXTRA_AFTER_MS.to - EXTRA_AFTER_MS.from);

      const slipMs = lostPlace && note.cycle > lostPlace.afterCycles ? lostPlace.slipMs : 0;
      const driftMs = (driftMsPerMinute * dueUs) / 60e6;
      const offsetMs = biasMs + driftMs + slipMs + deviation * spreadMs;
      // Plus 0, since rounding can give a negative zero.
      const timeUs = Math.round(dueUs + offsetMs * 1000) + 0;
      const voice = isWrong ? mistaken : note.voice;
      const velocity = velocityAt(loudGhost ? 'tap' : note.level, loudness);
      const kind =
        isMissed || !playable(voice, kit) ? 'missed' : isWrong ? 'wrong voice' : 'played';
      const truth: SimulatedStroke[] = [
        { note: index, kind, timeUs, voice, velocity, loudGhost: loudGhost && kind !== 'missed' },
      ];
      if (isExtra && playable(note.voice, kit))
        truth.push({
          note: index,
          kind: 'extra',
          timeUs: timeUs + Math.round(extraMs * 1000),
          voice: note.voice,
          velocity: velocityAt('tap', loudness),
          loudGhost: false,
        });
      const struck = truth.filter(({ kind }) => kind !== 'missed');
      return { truth, messages: struck.flatMap((stroke) => messagesFor(stroke, kit)) };
    },
  };
}

/**
 * A whole simulated take, as a General MIDI kit would send it unless another kit is given.
 *
 * @example simulate(timedNotes({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, 0), {}, 1).messages[0] // => { timeUs: 0, status: 0x99, data1: 38, data2: 72 }
 */
export function simulate(
  notes: readonly { readonly note: Note; readonly timeUs: number }[],
  faults: Faults,
  seed: number,
  kit: Kit = GENERAL_MIDI,
): SimulatedTake {
  const player = createSimulatedPlayer(faults, seed, kit);
  const played = notes.map(({ note, timeUs }) => player.play(note, timeUs));
  return {
    truth: played.flatMap(({ truth }) => truth),
    messages: played.flatMap(({ messages }) => messages).sort((a, b) => a.timeUs - b.timeUs),
  };
}

/** The messages of one stroke: a note-on, after the hi-hat's controller where the pad follows it. */
function messagesFor({ voice, timeUs, velocity }: SimulatedStroke, kit: Kit): RawMessage[] {
  const pad = padFor(voice, kit)!;
  const strike = { timeUs, status: NOTE_ON, data1: pad.note, data2: velocity };
  if (pad.followsOpening !== true) return [strike];
  const { controller, highMeans } = kit.opening;
  const high = (voice === 'hi-hat open') === (highMeans === 'open');
  return [{ timeUs, status: CONTROL_CHANGE, data1: controller, data2: high ? 127 : 0 }, strike];
}

const playable = (voice: Voice, kit: Kit): boolean => padFor(voice, kit) !== undefined;
