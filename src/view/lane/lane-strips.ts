import type { LaneFeed } from '../../live/lane-feed';
import { readPalette, WHITE_PAPER, type Palette } from '../theme/palette';
import { LanePainter, type DrawOver } from './lane-painter';
import { takeEnds } from './scroll-steps';

/** Between the margins of a page, px, and dots to a px. */
const STRIP = { width: 660, height: 220, dots: 2 } as const;
/** A strip takes 2.3 MB. Chosen: some ten minutes of a take. */
const MOST_STRIPS = 100;
/** Paper is read from nearer than the screen: so much more of the take stands on a strip. Chosen. */
const CLOSER = 1.6;
/** How far ahead of the first note the first strip begins, so that it stands clear of the names, of a strip. */
const AHEAD = 1 / 24;

/** A take's lane cut into strips for paper. */
export interface LaneStrips {
  readonly canvases: readonly HTMLCanvasElement[];
  /** Where the last of them ends, if the take goes on. */
  readonly cutAtUs: number | undefined;
}

/** The whole lane of a take that is over, black on white, from the first note or stroke to the last. */
export function laneStrips(feed: LaneFeed, over: DrawOver | undefined): LaneStrips {
  const { width, height, dots } = STRIP;
  const scratch = document.createElement('canvas');
  const context = scratch.getContext('2d', { alpha: false })!;
  const palette = lightPalette();
  const painterOf = (spanSeconds: number | undefined) => {
    const painter = new LanePainter(context, palette, { feed, still: false, spanSeconds, over });
    painter.resize(width, height, dots);
    painter.paintFrom(startUs);
    return painter;
  };
  const { startUs, endUs } = takeEnds(feed);
  const painter = painterOf((CLOSER * painterOf(undefined).spanUs) / 1e6);
  const { spanUs } = painter;
  const fromUs = startUs - AHEAD * spanUs;
  const needed = Math.floor((endUs - fromUs) / spanUs) + 1;
  const count = Math.min(MOST_STRIPS, needed);
  const canvases = Array.from({ length: count }, (_, i) => {
    painter.paintFrom(fromUs + i * spanUs);
    const strip = document.createElement('canvas');
    strip.width = scratch.width;
    strip.height = scratch.height;
    strip.getContext('2d', { alpha: false })!.drawImage(scratch, 0, 0);
    return strip;
  });
  return { canvases, cutAtUs: count < needed ? fromUs + count * spanUs : undefined };
}

/** Of the light theme on white, whichever theme the page is in; it is told by its root alone. */
function lightPalette(): Palette {
  const { dataset } = document.documentElement;
  const { theme } = dataset;
  dataset['theme'] = 'light';
  const palette = { ...readPalette(document.body), paper: WHITE_PAPER };
  if (theme === undefined) delete dataset['theme'];
  else dataset['theme'] = theme;
  return palette;
}
