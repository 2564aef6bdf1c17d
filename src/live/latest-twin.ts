import { TWIN_REACH } from '../kit/twin-stroke';
import type { LaneFeed } from './lane-feed';

/** The last stroke of the same time, voice (index into VOICES) and velocity, or -1. Live path. */
export function latestTwin(
  {
    strokeCount,
    strokeTimeUs,
    strokeVoice,
    strokeVelocity,
  }: Pick<LaneFeed, 'strokeCount' | 'strokeTimeUs' | 'strokeVoice' | 'strokeVelocity'>,
  timeUs: number,
  voice: number,
  velocity: number,
): number {
  for (let j = strokeCount - 1; j >= Math.max(0, strokeCount - TWIN_REACH); j--)
    if (strokeTimeUs[j] === timeUs && strokeVoice[j] === voice && strokeVelocity[j] === velocity)
      return j;
  return -1;
}
