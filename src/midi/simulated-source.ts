import { GENERAL_MIDI } from '../kit/built-in-kits';
import type { Kit } from '../kit/kit';
import type { Note } from '../phrase/model/note';
import { createSimulatedPlayer, type Faults } from '../take/simulate';
import type { StrokeSink, StrokeSource } from './stroke-source';
import { neverChanges } from './subscribers';
import { browserTimers, createTimedMessages, type Timers } from './timed-messages';

export interface SimulatedSource extends StrokeSource {
  /**
   * The next note to play: when it is due in the take (microseconds from bar 1 beat 1) and on the
   * performance clock (milliseconds). Give it early enough for a stroke ahead of time.
   */
  append(note: Note, timeUs: number, dueMs: number): void;
}

/** A player with dialled faults who plays in real time whatever notes the session appends. */
export function createSimulatedSource(
  faults: Faults,
  seed: number,
  kit: Kit = GENERAL_MIDI,
  timers: Timers = browserTimers,
): SimulatedSource {
  let player = createSimulatedPlayer(faults, seed, kit);
  let sink: StrokeSink | undefined;
  const queue = createTimedMessages(timers, (...message) => sink?.(...message));

  return {
    name: 'Simulated player',
    kit,
    state: {
      kind: 'ready',
      sentence: 'A simulated player plays the phrase, with the faults that are set.',
      remedy: '',
    },
    start(next) {
      sink = next;
    },
    /** The next start plays the same again. */
    stop() {
      queue.clear();
      sink = undefined;
      player = createSimulatedPlayer(faults, seed, kit);
    },
    subscribe: neverChanges,
    append(note, timeUs, dueMs) {
      if (!sink) return;
      for (const message of player.play(note, timeUs).messages) {
        const { status, data1, data2 } = message;
        queue.add(dueMs + (message.timeUs - timeUs) / 1000, status, data1, data2);
      }
    },
  };
}
