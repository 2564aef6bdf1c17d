import { CROSSTALK, DOUBLE_TRIGGER, GENUINE, type StrokesSetAside } from '../kit/pad-fault';
import type { LaneFeed } from './lane-feed';

/** How many strokes answer nothing, and how many are the kit's fault. */
export interface StrokeCounts extends StrokesSetAside {
  readonly extras: number;
}

export function strokeCounts(
  feed: Pick<LaneFeed, 'strokeCount' | 'strokeSetAside' | 'strokeNote'>,
): StrokeCounts {
  const counts = { extras: 0, doubleTriggers: 0, crosstalk: 0 };
  for (let j = 0; j < feed.strokeCount; j++) {
    const why = feed.strokeSetAside[j];
    if (why === DOUBLE_TRIGGER) counts.doubleTriggers++;
    else if (why === CROSSTALK) counts.crosstalk++;
    else if (why === GENUINE && feed.strokeNote[j]! < 0) counts.extras++;
  }
  return counts;
}
