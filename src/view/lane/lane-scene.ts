import type { LaneFeed } from '../../live/lane-feed';
import type { Palette } from '../theme/palette';
import type { LaneLayout, LaneView } from './lane-layout';

/** What is drawn, where and in which colours; made when something changes, never in a frame. */
export interface LaneScene {
  readonly ctx: CanvasRenderingContext2D;
  readonly feed: LaneFeed;
  /** For each voice its row, or -1. */
  readonly rowOf: Int8Array;
  readonly layout: LaneLayout;
  readonly view: LaneView;
  readonly palette: Palette;
}

/** A stretch of the paper; one object, written anew for each stretch that is printed. */
export interface PrintedScene extends LaneScene {
  ctx: CanvasRenderingContext2D;
  layout: LaneLayout;
  view: LaneView;
  /** Of what is written. */
  colour: string;
  /** Whether closed hi-hats carry their plus: only where open ones are written too. */
  readonly closedSigns: boolean;
  /** Index of the first note, and of the one after the last. */
  from: number;
  to: number;
}
