import { boundariesOf } from '../../../src/kit/boundaries-of';
import type { LevelBoundaries } from '../../../src/kit/kit';
import type { Stroke } from '../../../src/kit/stroke';
import { matchTake } from '../../../src/match/match-take';
import type { TimedNote } from '../../../src/match/timed-note';
import type { Level } from '../../../src/phrase/model/level';
import type { Voice } from '../../../src/phrase/model/voice';
import { judge, type Judgement } from '../../../src/score/judge';
import { requiredLevels } from '../../../src/score/required-levels';
import { chance, type Chance } from '../../../src/time/chance';
import { clamp } from '../../../src/time/whole';
import type { Piece } from './phrases';
import { scatterMs, type Noise } from './scatter';

/** What the player is about to do for one note. */
export interface Intent {
  /** Chance, ms. */
  readonly scatterMs: number;
  /** What the fault adds, ms, early negative. */
  readonly faultMs: number;
  readonly voice: Voice;
  readonly velocity: number;
  readonly isMissed: boolean;
  /** A second, softer stroke of the same pad, ms after the first. */
  readonly bounceMs?: number;
}

/** Where a note stands in the take. */
export interface Place {
  /** In the notes of the take, from 0. */
  readonly index: number;
  /** 0 for the first note, 1 for the last. */
  readonly through: number;
}

/** A fault, note by note; the same chance decides it whatever the scatter. */
export type Bend = (intent: Intent, due: TimedNote, place: Place, chance: Chance) => Intent;

/** What the strokes scatter by. */
export interface Scatter {
  readonly noise: Noise;
  readonly sdMs: number;
}

/** A clean player's share of notes left out, and followed by a stroke that answers none. Chosen, not measured. */
export const MISSED = 0.005;
export const EXTRA = 0.003;
/** Mean velocities, at least 2.9 standard deviations inside the zones up to 50 and from 95. Chosen, not measured. */
export const VELOCITIES: Readonly<Record<Level, number>> = { ghost: 36, tap: 72, accent: 112 };
export const VELOCITY_SD = 5;
/** Of the stroke that bounced. Chosen, not measured. */
const BOUNCE_SHARE = 0.6;
/** How far the notes reach beyond what is played: behind the click the last strokes answer notes that come later. */
const SPARE_BARS = 2;

export const velocityOf = (level: Level, { normal }: Chance): number =>
  inMidi(VELOCITIES[level] + VELOCITY_SD * normal());

export const inMidi = (velocity: number): number => clamp(Math.round(velocity), 1, 127);

export const boundariesFor =
  ({ kit }: Piece) =>
  (pad: number): LevelBoundaries =>
    boundariesOf(kit, pad);

/** The strokes of one take in time order: `bars` of the piece with one fault, decided by the seed. */
export function strokesOf(
  piece: Piece,
  bars: number,
  bend: Bend,
  scatter: Scatter,
  seed: number,
): Stroke[] {
  const notes = piece.notes(bars);
  const draw = chance(seed);
  const offsets = scatterMs(notes, scatter.noise, scatter.sdMs, draw.normal);
  const voices = [...new Set(notes.map(({ note }) => note.voice))];
  const strokes = notes.flatMap((due, index) => {
    const clean: Intent = {
      scatterMs: offsets[index]!,
      faultMs: 0,
      voice: due.note.voice,
      velocity: velocityOf(due.note.level, draw),
      isMissed: draw.share() < MISSED,
    };
    const place = { index, through: notes.length > 1 ? index / (notes.length - 1) : 0 };
    const played = struck(bend(clean, due, place, draw), due, piece);
    return draw.share() < EXTRA ? [...played, strayStroke(due, voices, piece, draw)] : played;
  });
  return strokes.sort((a, b) => a.timeUs - b.timeUs);
}

function struck(intent: Intent, due: TimedNote, piece: Piece): Stroke[] {
  const { voice, velocity, bounceMs } = intent;
  if (intent.isMissed) return [];
  const timeUs = due.timeUs + Math.round((intent.scatterMs + intent.faultMs) * 1000);
  const stroke = { timeUs, voice, velocity, pad: padOf(voice, piece) };
  if (bounceMs === undefined) return [stroke];
  const bounced = inMidi(BOUNCE_SHARE * velocity);
  return [stroke, { ...stroke, timeUs: timeUs + Math.round(bounceMs * 1000), velocity: bounced }];
}

/** Any voice of the piece, at any time within a partial after the note. */
function strayStroke(
  due: TimedNote,
  voices: readonly Voice[],
  piece: Piece,
  { share, next }: Chance,
): Stroke {
  const voice = voices[next() % voices.length]!;
  const partialUs = 60e6 / piece.plan.phrase.tempoBpm / piece.subdivision;
  const timeUs = due.timeUs + Math.round(share() * partialUs);
  return { timeUs, voice, velocity: VELOCITIES.tap, pad: padOf(voice, piece) };
}

const padOf = (voice: Voice, { kit }: Piece): number =>
  kit.pads.find((pad) => pad.voice === voice)?.note ?? 0;

/**
 * Strokes judged as the engine judges a take (score/assess.ts), with the piece's own notes, which are the same objects
 * from take to take.
 */
export function judgementOf(piece: Piece, bars: number, strokes: readonly Stroke[]): Judgement {
  const due = piece.notes(bars + SPARE_BARS);
  const lastUs = strokes.reduce((last, { timeUs }) => Math.max(last, timeUs), -Infinity);
  const inReach = due.filter(({ timeUs, reachUs }) => timeUs <= lastUs + reachUs);
  const matching = matchTake(inReach, strokes);
  let end = inReach.length;
  while (end > 0 && matching.strokeOfNote[end - 1]! < 0 && inReach[end - 1]!.timeUs > lastUs) end--;
  while (end > 0 && inReach[end]?.timeUs === inReach[end - 1]!.timeUs) end++;
  return judge(
    inReach.slice(0, end),
    strokes,
    { ...matching, strokeOfNote: matching.strokeOfNote.subarray(0, end) },
    ({ pad }) => boundariesFor(piece)(pad),
    requiredLevels(piece.plan),
  );
}
