import type { Command } from '../../control/command';
import type { PracticeSession } from '../session.svelte';
import { practicable } from '../practicable';

/** What a command works on. */
export interface Commanded {
  readonly session: Pick<
    PracticeSession,
    'status' | 'choices' | 'choose' | 'start' | 'stop' | 'phrase' | 'target' | 'placeHelp'
  >;
  readonly stepBpm: number;
  /** Marks the spot where the take is; its words, undefined where nothing has been played. */
  readonly markSpot: () => string | undefined;
}

/** Does what was commanded; what is to be told of it. */
export function performCommand(command: Command, commanded: Commanded): string {
  const { session } = commanded;
  const isIdle = session.status === 'idle';
  switch (command) {
    case 'start or stop':
      return performCommand(isIdle ? 'start' : 'stop', commanded);
    case 'start':
      if (!session.phrase) return 'No phrase is chosen';
      if (!isIdle) return 'Playing already';
      void session.start();
      return 'Start';
    case 'stop':
      if (isIdle) return 'Nothing is playing';
      void session.stop();
      return 'Stop';
    case 'again':
      if (!session.phrase) return 'No phrase is chosen';
      void session.stop().then(() => session.start());
      return 'Again';
    case 'next layer':
      return changeLayer(session, 1);
    case 'previous layer':
      return changeLayer(session, -1);
    case 'faster':
      return changeTempo(session, commanded.stepBpm);
    case 'slower':
      return changeTempo(session, -commanded.stepBpm);
    case 'mark this spot': {
      const words = isIdle ? undefined : commanded.markSpot();
      return words === undefined ? 'Nothing played yet to mark' : `Marked: ${words}`;
    }
    case 'wait for me':
      if (!session.placeHelp?.isOffered) return 'The place is not lost';
      session.placeHelp.waitForMe();
      return 'Waiting for you';
    case 'bring me back':
      if (!session.placeHelp?.isOffered) return 'The place is not lost';
      session.placeHelp.bringMeBack();
      return 'Bringing you back';
    case 'view from the throne': {
      const fromThrone = !session.choices.fromThrone;
      session.choose({ fromThrone });
      return fromThrone ? 'From the throne' : 'From nearby';
    }
  }
}

function changeLayer(session: Commanded['session'], by: number): string {
  const { target, choices } = session;
  if (!target) return 'No phrase is chosen';
  if (target.isExercise) return 'An exercise has one layer';
  const { layers } = target.chosen;
  const layer = choices.layer + by;
  const name = layers[layer - 1]?.name;
  if (name === undefined) return by > 0 ? 'The last layer already' : 'The first layer already';
  session.choose({ layer });
  return `Layer ${layer}: ${name}`;
}

function changeTempo(session: Commanded['session'], by: number): string {
  const before = session.choices.tempoBpm;
  const bpm = practicable(before + by, session.phrase);
  if (bpm === before) return `No ${by > 0 ? 'faster' : 'slower'} than ${before} bpm`;
  session.choose({ tempoBpm: bpm });
  return `${by > 0 ? 'Faster' : 'Slower'}: ${bpm} bpm`;
}
