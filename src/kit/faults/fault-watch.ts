import type { Kit } from '../kit';
import { createKitReader, OPENING, STROKE } from '../kit-reader';
import { createChatter } from './chatter';
import { createFlood } from './flood';
import { KIT_FAULTS, type KitFault } from './kit-fault';
import { createOpeningWatch } from './opening-watch';
import { createSetAsideCounts } from './set-aside-counts';
import { createVelocityCounts } from './velocity-counts';
import { createWireless } from './wireless';
import { countOf } from '../../phrase/model/words';

/** Watches everything a kit sends for faults that are not the player's. */
export interface FaultWatch {
  /** A raw message with its own time, integer microseconds. Allocates nothing. */
  message(timeUs: number, status: number, data1: number, data2: number): void;
  /** What was found so far, in the order of KIT_FAULTS, the most frequent first within each. */
  report(): readonly KitFault[];
  /** Every velocity a pad sent, ascending, for its curve. */
  velocitiesOf(note: number): readonly number[];
  /** Notes without a pad, with how often they came, most frequent first: to be offered for mapping. */
  unmapped(): readonly { readonly note: number; readonly count: number }[];
}

/** @example createFaultWatch(GENERAL_MIDI).report() // => [] */
export function createFaultWatch(kit: Kit): FaultWatch {
  const reader = createKitReader(kit);
  const setAside = createSetAsideCounts(kit);
  const velocities = createVelocityCounts();
  const chatter = createChatter();
  const opening = createOpeningWatch(kit);
  const flood = createFlood();
  const wireless = createWireless();
  const name = (note: number) => kit.pads.find((pad) => pad.note === note)?.name ?? `note ${note}`;
  const unmapped = () =>
    Array.from(reader.unmapped, (count, note) => ({ note, count }))
      .filter(({ count }) => count > 0)
      .sort((a, b) => b.count - a.count || a.note - b.note);

  return {
    message(timeUs, status, data1, data2) {
      flood.add(timeUs, status);
      const kind = reader.read(status, data1, data2);
      if (kind === OPENING) opening.moved(data2);
      if (kind !== STROKE) return;
      const { pad, velocity } = reader;
      setAside.add(timeUs, pad, velocity);
      velocities.add(pad, velocity);
      chatter.add(timeUs, pad, velocity);
      opening.struck(pad);
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
        ...unmapped().map(unmappedFault),
      ];
      const place = ({ fault }: KitFault) => KIT_FAULTS.indexOf(fault);
      return found.sort((a, b) => place(a) - place(b) || b.count - a.count);
    },
    velocitiesOf: (note) => velocities.velocitiesOf(note),
    unmapped,
  };
}

const unmappedFault = ({ note, count }: { note: number; count: number }): KitFault => ({
  fault: 'unmapped note',
  pad: note,
  count,
  sentence: `Note ${note} came ${countOf(count, 'time')} and belongs to no pad of this kit.`,
  advice: 'Say which pad it is; the strokes are kept and can be judged again.',
});
