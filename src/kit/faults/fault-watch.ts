import { nameOfPad, type Kit } from '../kit';
import type { KitMessage } from '../kit-decoder';
import { OPENING, STROKE, UNMAPPED } from '../kit-reader';
import { GENUINE } from '../pad-fault';
import { createChatter } from './chatter';
import { createFlood } from './flood';
import { countOf } from '../../words/words';
import { KIT_FAULTS, type KitFault } from './kit-fault';
import { createOpeningWatch } from './opening-watch';
import { createSetAsideCounts } from './set-aside-counts';
import { createVelocityCounts } from './velocity-counts';
import { createWireless } from './wireless';

/** Watches everything a kit sends for faults that are not the player's. */
export interface FaultWatch {
  /** A message as the kit's decoder reads it. Allocates nothing. */
  receive(message: KitMessage): void;
  /** What was found so far, in the order of KIT_FAULTS, the most frequent first within each. */
  report(): readonly KitFault[];
}

/** @example createFaultWatch(GENERAL_MIDI).report() // => [] */
export function createFaultWatch(kit: Kit): FaultWatch {
  const unmappedNotes = new Uint32Array(128);
  const setAside = createSetAsideCounts(kit);
  const velocities = createVelocityCounts(kit);
  const chatter = createChatter();
  const opening = createOpeningWatch(kit);
  const flood = createFlood();
  const wireless = createWireless();
  const name = (note: number) => nameOfPad(kit, note);

  return {
    receive(message) {
      const { timeUs, kind, pad, velocity } = message;
      flood.add(timeUs, message.status);
      if (kind === OPENING) opening.moved(message.data2);
      if (kind === UNMAPPED) unmappedNotes[pad]!++;
      if (kind !== STROKE) return;
      setAside.add(message);
      velocities.add(pad, velocity);
      chatter.add(timeUs, pad, velocity);
      if (message.setAside === GENUINE) opening.struck(pad);
      wireless.add(timeUs);
    },
    report() {
      const found = [
        ...setAside.report(name),
        ...velocities.report(name),
        ...chatter.report(name),
        ...opening.report(),
        ...flood.report(),
        ...wireless.report(),
        ...unmappedFaults(unmappedNotes),
      ];
      const place = ({ fault }: KitFault) => KIT_FAULTS.indexOf(fault);
      return found.sort((a, b) => place(a) - place(b) || b.count - a.count);
    },
  };
}

const unmappedFaults = (counts: Uint32Array): KitFault[] =>
  Array.from(counts, (count, note): KitFault => ({
    fault: 'unmapped note',
    pad: note,
    count,
    sentence: `Note ${note} came ${countOf(count, 'time')} and belongs to no pad of this kit.`,
    advice: 'Say which pad it is; the strokes are kept and can be judged again.',
  })).filter(({ count }) => count > 0);
