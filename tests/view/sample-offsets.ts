import type { RigProfile } from '../../src/clock/latency/rig-profile';
import { chance } from '../../src/time/chance';

/** A rig that was measured by microphone. */
export const MEASURED: RigProfile = {
  outputLabel: 'Desk speakers',
  sampleRate: 48_000,
  port: 'Harbour kit',
  deviceOffsetMs: 23.4,
  method: 'microphone',
  intervalMs: [22.5, 24.3],
  spreadMs: 0.4,
  strokes: 31,
  measuredAt: '2026-11-24T12:00:00Z',
};

/** Thirty-six strokes around 5 ms, as pairs that lie alike to both sides of it. */
export function playedOffsets(spreadMs = 12): number[] {
  const { normal } = chance(3);
  return Array.from({ length: 18 }, () => spreadMs * normal()).flatMap((ms) => [5 + ms, 5 - ms]);
}
