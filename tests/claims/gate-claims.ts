import { median } from 'simple-statistics';
import { cycleNotes, pickupNotes } from '../../src/phrase/layers/expand';
import type { Note } from '../../src/phrase/model/note';
import type { Phrase } from '../../src/phrase/model/phrase';
import { Trial } from '../../src/score/gate';
import type { GateOptions } from '../../src/score/gate-options';
import { OwnNotes, ownParts } from '../../src/score/own-notes';
import { chance } from '../../src/time/chance';

/** Somebody who plays a share of the notes as written. */
export interface SharePlayer {
  readonly share: number;
  /** How many faults follow on each other, on average; 1 where each comes by itself. */
  readonly faultsInARow: number;
  /** Of what the layer itself added or changed, where that is another. */
  readonly ownShare?: number;
}

/** Sixteenths at 88 beats a minute. */
export const NOTES_A_MINUTE = 352;
const TEN_MINUTES = 10 * NOTES_A_MINUTE;

/**
 * After how many notes a player passes a layer (1-based) in ten minutes; Infinity for never. Somebody who lacks only the
 * pickup starts anew.
 */
export function notesToPass(
  phrase: Phrase,
  layer: number,
  player: SharePlayer,
  draw: () => number,
  options: GateOptions = {},
): number {
  const parts = ownParts(phrase, layer);
  const isRight = rightOrWrong(player, draw);
  const { ownShare } = player;
  let played = 0;
  const playFromStart = (continues: boolean): boolean => {
    const trial = new Trial(new OwnNotes(parts), { ...options, continues });
    for (const note of notesOf(phrase, layer)) {
      const right = isRight();
      const isOwn = note.layers.includes(layer);
      trial.add(note, layer, isOwn && ownShare !== undefined ? draw() < ownShare : right);
      if (++played >= TEN_MINUTES || trial.hasPassed) return trial.hasPassed;
      if (note.cycle > 1 && parts.pickup > 0 && lacksPickupOnly(trial)) break;
    }
    return playFromStart(true);
  };
  return playFromStart(false) ? played : Infinity;
}

/** Cheap where all notes are not enough yet, as mostly. */
function lacksPickupOnly(trial: Trial): boolean {
  if (trial.bound !== 'own notes') return false;
  const { ownLack } = trial.gate;
  return ownLack?.pickup !== undefined && ownLack.notes === undefined;
}

/** Whether each note is as written: a Markov chain of two states with the player's share and length of runs. */
function rightOrWrong({ share, faultsInARow }: SharePlayer, draw: () => number): () => boolean {
  const faults = 1 - share;
  const stays = faultsInARow === 1 ? faults : 1 - 1 / faultsInARow;
  const enters = faultsInARow === 1 ? faults : ((1 - stays) * faults) / share;
  let isFault = draw() < faults;
  return () => {
    const before = isFault;
    isFault = draw() < (isFault ? stays : enters);
    return !before;
  };
}

/** More cycles than any phrase of the library takes until it meets the bar line again. */
const CYCLES = 60;
const cyclesOf = new Map<string, readonly (readonly Note[])[]>();

/** The pickup, and cycle upon cycle; the cycles of CYCLES are numbered from 1 again and again. */
export function* notesOf(phrase: Phrase, layer: number, cycles = Infinity): Generator<Note> {
  const key = `${phrase.title} ${layer}`;
  const known =
    cyclesOf.get(key) ??
    Array.from({ length: CYCLES + 1 }, (_, i) =>
      i === 0 ? pickupNotes(phrase, layer) : cycleNotes(phrase, layer, i, 1),
    );
  cyclesOf.set(key, known);
  yield* known[0]!;
  for (let cycle = 0; cycle < cycles; cycle++) yield* known[1 + (cycle % CYCLES)]!;
}

/** How many of `count` players pass a layer, and how many of them within 200 notes. */
export interface PassCount {
  readonly players: number;
  readonly passed: number;
  readonly soon: number;
  /** The middle one of those who passed; undefined where nobody did. */
  readonly medianNotes: number | undefined;
}

const SOON = 200;

export function passCount(
  phrase: Phrase,
  layer: number,
  player: SharePlayer,
  count: number,
  seed: number,
  options: GateOptions = {},
): PassCount {
  const { share: draw } = chance(seed);
  const notes = Array.from({ length: count }, () =>
    notesToPass(phrase, layer, player, draw, options),
  );
  const passed = notes.filter((one) => one < Infinity);
  return {
    players: count,
    passed: passed.length,
    soon: notes.filter((one) => one <= SOON).length,
    medianNotes: passed.length > 0 ? median(passed) : undefined,
  };
}
