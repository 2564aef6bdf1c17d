import { GENERAL_MIDI } from '../kit/built-in-kits';
import type { Kit } from '../kit/kit';
import { layerShape } from '../phrase/layers/layer-shape';
import { createSimulatedPlayer, type Faults } from '../take/simulate';
import { firstFrom } from '../time/first-from';
import type { PlayedTo, StrokeSink, StrokeSource } from './stroke-source';
import { neverChanges } from './subscribers';
import { browserTimers, createTimedMessages, type Timers } from './timed-messages';

export interface SimulatedSource extends StrokeSource {
  /** Plays the notes that are not past yet. */
  playTo(target: PlayedTo): void;
}

/** Notes are read this long before they are due, µs: early enough for a stroke ahead of its time, and less than the notice changes give. */
const READ_AHEAD_US = 1_000_000;
/** And this often, ms. Chosen, not measured. */
const READ_EVERY_MS = 100;

/** A player with dialled faults who plays in real time to whatever runs. */
export function createSimulatedSource(
  faults: Faults,
  seed: number,
  kit: Kit = GENERAL_MIDI,
  timers: Timers = browserTimers,
): SimulatedSource {
  let sink: StrokeSink | undefined;
  let callOff: (() => void) | undefined;
  const queue = createTimedMessages(timers, (timeMs, status, data1, data2) =>
    sink?.(timeMs, status, data1, data2),
  );

  function rest(): void {
    callOff?.();
    callOff = undefined;
    queue.clear();
  }

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
    stop() {
      rest();
      sink = undefined;
    },
    subscribe: neverChanges,
    /** The next time plays the same again. */
    playTo(target) {
      rest();
      const { originMs, timeline } = target;
      const player = createSimulatedPlayer(slipping(faults, target), seed, kit);
      let at = firstFrom(timeline.notes, ({ timeUs }) => timeUs, target.nowUs());
      const read = (): void => {
        const untilUs = target.nowUs() + READ_AHEAD_US;
        for (; at < timeline.notes.length && timeline.notes[at]!.timeUs <= untilUs; at++) {
          const { note, timeUs } = timeline.notes[at]!;
          for (const message of player.play(note, timeUs).messages)
            queue.add(
              originMs + message.timeUs / 1000,
              message.status,
              message.data1,
              message.data2,
            );
        }
        callOff = timers.after(READ_EVERY_MS, read);
      };
      read();
    },
  };
}

/** A place that is lost is lost by one partial at the tempo and layer the take begins with. */
function slipping(faults: Faults, { timeline: { plan } }: PlayedTo): Faults {
  if (!faults.lostPlace) return faults;
  const { partialBeats } = layerShape(plan.phrase, plan.passages[0]!.layer);
  const slipMs = (partialBeats.valueOf() * 60_000) / plan.tempo.changes[0]!.bpm;
  return { ...faults, lostPlace: { ...faults.lostPlace, slipMs } };
}
