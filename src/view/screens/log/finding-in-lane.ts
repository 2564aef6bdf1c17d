import type { Finding } from '../../../coach/finding';
import type { FindingPlace } from './finding-place';

/** The finding whose notes stand in brackets on the lane. */
export interface FindingInLane {
  readonly finding: Finding;
  readonly place: FindingPlace;
}
