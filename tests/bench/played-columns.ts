import type { NoteColumns, StrokeColumns } from '../../src/match/columns';
import { DEFAULT_REACH_MS } from '../../src/match/hit-window';
import { chance } from '../../src/time/chance';

/** A way of playing sixteenths: every voice on every partial. */
export interface Playing {
  readonly name: string;
  readonly voices: number;
  readonly bpm: number;
  readonly spreadMs: number;
}

/** Chosen to span what happens: unhurried and even, all hands and feet at full speed, strokes past their neighbours. */
export const EVEN: Playing = { name: 'even', voices: 4, bpm: 120, spreadMs: 10 };
export const DENSE: Playing = { name: 'dense', voices: 8, bpm: 300, spreadMs: 10 };
export const SLOPPY: Playing = { name: 'sloppy', voices: 1, bpm: 300, spreadMs: 25 };
export const PLAYINGS = [EVEN, DENSE, SLOPPY];

/** What was due and what was struck, in time order. */
export interface PlayedColumns {
  readonly notes: NoteColumns;
  readonly strokes: StrokeColumns;
  readonly reachUs: number;
}

/** `count` notes and a stroke for each, the same for the same seed. */
export function playedColumns(playing: Playing, count: number, seed = 300): PlayedColumns {
  const { next, normal } = chance(seed);
  const partialUs = 15e6 / playing.bpm;
  const reachUs = Math.min(DEFAULT_REACH_MS * 1000, partialUs);
  const timeUs = Float64Array.from(
    { length: count },
    (_, i) => Math.floor(i / playing.voices) * partialUs,
  );
  const voice = Uint8Array.from({ length: count }, (_, i) => i % playing.voices);
  const struckUs = timeUs.map((due) => Math.round(due + normal() * playing.spreadMs * 1000));
  const order = Array.from(struckUs.keys()).sort((a, b) => struckUs[a]! - struckUs[b]!);
  return {
    notes: { timeUs, voice, reachUs: new Float64Array(count).fill(reachUs) },
    strokes: {
      timeUs: Float64Array.from(order, (i) => struckUs[i]!),
      voice: Uint8Array.from(order, (i) => voice[i]!),
      velocity: Uint8Array.from(order, () => 30 + (next() % 90)),
    },
    reachUs,
  };
}

/** "sloppy: 1 voice, 300 bpm, spread 25 ms" */
export const inWords = ({ name, voices, bpm, spreadMs }: Playing): string =>
  `${name}: ${voices} ${voices === 1 ? 'voice' : 'voices'}, ${bpm} bpm, spread ${spreadMs} ms`;
