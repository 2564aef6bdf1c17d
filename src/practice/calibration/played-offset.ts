import type { DeviceAndHabit } from '../../clock/latency/tap-estimate';
import type { OffsetMeasurement } from './rigs.svelte';

/**
 * What playing to the click has told, as the offset of the rig, the player's habit included.
 *
 * @example playedOffset({ deviceAndHabitMs: 12, lowerMs: 8, upperMs: 16, spreadMs: 9, strokes: 24 }).deviceOffsetMs // => 12
 */
export const playedOffset = ({
  deviceAndHabitMs,
  lowerMs,
  upperMs,
  spreadMs,
  strokes,
}: Omit<DeviceAndHabit, 'warmUp' | 'wild'>): OffsetMeasurement => ({
  deviceOffsetMs: deviceAndHabitMs,
  method: 'from playing',
  intervalMs: [lowerMs, upperMs],
  spreadMs,
  strokes,
});
