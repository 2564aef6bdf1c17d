import { firstFrom } from '../time/first-from';
import type { MidiMeter } from '../take/midi-file';

/** One meter of a file and where it begins. */
export interface MeterStretch {
  readonly fromTick: number;
  /** The first tick of the next; Infinity for the last. */
  readonly toTick: number;
  /** 1-based bar of the file at its beginning. */
  readonly fromBar: number;
  readonly barTicks: number;
  /** Such as "6/8". */
  readonly text: string;
}

/** In force until the first time signature, as the standard says. */
const USUAL: Omit<MidiMeter, 'tick'> = { count: 4, unit: 4 };

/** The meters of a file one after the other; a time signature inside a bar cuts it off. */
export function meterStretches(
  meters: readonly MidiMeter[],
  ticksPerQuarter: number,
): readonly MeterStretch[] {
  const changes = (meters[0]?.tick === 0 ? meters : [{ tick: 0, ...USUAL }, ...meters]).filter(
    (meter, i, all) => all[i + 1]?.tick !== meter.tick,
  );
  const stretches: MeterStretch[] = [];
  let fromBar = 1;
  changes.forEach(({ tick, count, unit }, i) => {
    const text = `${count}/${unit}`;
    const barTicks = (count * 4 * ticksPerQuarter) / unit;
    const toTick = changes[i + 1]?.tick ?? Infinity;
    const before = stretches.at(-1);
    if (before?.text === text) stretches[stretches.length - 1] = { ...before, toTick };
    else stretches.push({ fromTick: tick, toTick, fromBar, barTicks, text });
    const last = stretches.at(-1)!;
    fromBar = last.fromBar + Math.ceil((toTick - last.fromTick) / barTicks);
  });
  return stretches;
}

/** The meter at a tick, which is not negative. */
export const meterAt = (stretches: readonly MeterStretch[], tick: number): MeterStretch =>
  stretches[firstFrom(stretches, ({ fromTick }) => (fromTick > tick ? 1 : 0), 1) - 1]!;

/** The bar of a file, 1-based, that holds a tick. */
export function barAt(stretches: readonly MeterStretch[], tick: number): number {
  const { fromTick, fromBar, barTicks } = meterAt(stretches, tick);
  return fromBar + Math.floor((tick - fromTick) / barTicks);
}
