import { NOTATION_FAMILY } from '../theme/notation-font';
import { SMALL_HEAD, type FeedDensity } from './feed-density';
import { clamp } from '../../time/whole';

const TEXT = '"Source Sans 3 Variable", "Source Sans 3", Arial, sans-serif';
const TITLE = '"Source Serif 4 Variable", "Source Serif 4", Georgia, serif';

/** Sizes and places of everything on the strip, in CSS pixels. Made when something changes, never in a frame. */
export interface LaneLayout {
  readonly width: number;
  readonly height: number;
  readonly plotLeft: number;
  readonly plotWidth: number;
  readonly spanUs: number;
  readonly playheadX: number;
  readonly barTextY: number;
  readonly countY: number;
  readonly rulerY: number;
  readonly cycleY: number;
  readonly staffTop: number;
  readonly staffBottom: number;
  readonly rowHeight: number;
  /** Middle of each row. */
  readonly rowY: Float64Array;
  /** From the middle of a row down to where its ink stands. */
  readonly inkFoot: number;
  /** Height of a stroke of velocity 127. */
  readonly inkFull: number;
  readonly inkWidth: number;
  /** A SMuFL staff space: a notehead is about one of them high. */
  readonly space: number;
  readonly letterY: number;
  readonly letterLine: number;
  readonly narrow: boolean;
  readonly headFont: string;
  readonly smallFont: string;
  readonly barFont: string;
  readonly beatFont: string;
  readonly partialFont: string;
  /** Counting syllables closer than this are left out. */
  readonly partialRoom: number;
  readonly cycleFont: string;
  readonly labelFont: string;
  readonly letterFont: string;
}

export interface LayoutInput {
  readonly width: number;
  readonly height: number;
  readonly rowCount: number;
  readonly density: FeedDensity;
  /** Visible seconds; undefined lets the density decide. */
  readonly spanSeconds: number | undefined;
}

/** Distance between neighbours of one row that reads well from the throne, more on a lane of larger print. Chosen, not measured. */
const COMFORTABLE_PX = 40;
const NARROW_PX = 620;

const sans = (weight: number, px: number) => `${weight} ${px}px ${TEXT}`;

export function laneLayout(input: LayoutInput): LaneLayout {
  const { width, height, density } = input;
  const rowCount = Math.max(1, input.rowCount);
  const narrow = width < NARROW_PX;
  const u = clamp(height / 340, 0.62, 2.1) * (narrow ? 0.9 : 1);
  const labelPx = Math.round(clamp(18 * u, 14, 38));
  const plotLeft = Math.round(labelPx * (narrow ? 3.1 : 5.4)) + (narrow ? 8 : 14);
  const plotWidth = Math.max(40, width - plotLeft);

  const widest = narrow ? 6 : 8;
  const seconds =
    input.spanSeconds ??
    clamp(
      (plotWidth * density.rowGapUs) / (COMFORTABLE_PX * Math.max(1, u)) / 1e6,
      narrow ? 1.6 : 2.4,
      widest,
    );
  const spanUs = seconds * 1e6;
  const pxPerUs = plotWidth / spanUs;

  const barTextY = Math.round(22 * u);
  const countY = Math.round(48 * u);
  const rulerY = Math.round(61 * u);
  const cycleY = Math.round(78 * u);
  const staffTop = Math.round(94 * u);
  const letterPx = Math.round(clamp(density.noteGapUs * pxPerUs * 0.9, 11, 22 * u));
  const letterLine = Math.round(Math.max(letterPx, 15 * u) * 1.12);
  const letterSpace = letterLine * density.together + Math.round(6 * u);
  const staffBottom = height - letterSpace;
  const rowHeight = Math.max(8, (staffBottom - staffTop) / rowCount);
  const rowY = Float64Array.from(
    { length: rowCount },
    (_, row) => Math.round(staffTop + rowHeight * (row + 0.54)) + 0.5,
  );
  const space = clamp(Math.min(rowHeight / 2.75, (density.rowGapUs * pxPerUs) / 2.15), 5, 40);
  const inkFoot = rowHeight * 0.4;

  return {
    width,
    height,
    plotLeft,
    plotWidth,
    spanUs,
    playheadX: plotLeft + Math.round(plotWidth / 3),
    barTextY,
    countY,
    rulerY,
    cycleY,
    staffTop,
    staffBottom,
    rowHeight,
    rowY,
    inkFoot,
    inkFull: rowHeight * 0.88,
    inkWidth: clamp(Math.round(Math.min(rowHeight / 11, space / 3)), 2, 5),
    space,
    letterY: staffBottom + letterLine * 0.82,
    letterLine,
    narrow,
    headFont: `${space * 4}px "${NOTATION_FAMILY}"`,
    smallFont: `${space * 4 * SMALL_HEAD}px "${NOTATION_FAMILY}"`,
    barFont: `600 ${Math.round(25 * u)}px ${TITLE}`,
    beatFont: sans(650, Math.round(22 * u)),
    partialFont: sans(400, Math.round(18 * u)),
    partialRoom: 15 * u,
    cycleFont: sans(400, Math.round(Math.max(14, 17 * u))),
    labelFont: sans(500, labelPx),
    letterFont: sans(600, letterPx),
  };
}

/** Where on the time axis the strip stands in this frame; one object, written anew each frame. */
export interface LaneView {
  nowUs: number;
  /** Time at the left edge of the plot. */
  originUs: number;
  pxPerUs: number;
}

/**
 * @example xOf({ plotLeft: 100 }, { originUs: 1000, pxPerUs: 0.5, nowUs: 0 }, 1020) // => 110
 */
export const xOf = (layout: Pick<LaneLayout, 'plotLeft'>, view: LaneView, timeUs: number): number =>
  layout.plotLeft + (timeUs - view.originUs) * view.pxPerUs;

/** The time under an x. @example timeAt({ plotLeft: 100 }, { originUs: 1000, pxPerUs: 0.5, nowUs: 0 }, 110) // => 1020 */
export const timeAt = (layout: Pick<LaneLayout, 'plotLeft'>, view: LaneView, x: number): number =>
  view.originUs + (x - layout.plotLeft) / view.pxPerUs;

/**
 * Time runs right to left past the playhead. The paper moves by whole device pixels, so that what is
 * printed on it keeps its pixels from frame to frame.
 */
export function placeScrolling(
  layout: LaneLayout,
  nowUs: number,
  dpr: number,
  view: LaneView,
): void {
  view.pxPerUs = layout.plotWidth / layout.spanUs;
  const playedUs = (layout.playheadX - layout.plotLeft) / view.pxPerUs;
  view.originUs = onDevicePixel(nowUs - playedUs, view.pxPerUs * dpr);
  view.nowUs = view.originUs + playedUs;
}

/** A stretch from its left end on, all of it played. */
export function placeFrom(layout: LaneLayout, startUs: number, dpr: number, view: LaneView): void {
  view.pxPerUs = layout.plotWidth / layout.spanUs;
  view.originUs = onDevicePixel(startUs, view.pxPerUs * dpr);
  view.nowUs = view.originUs + layout.spanUs;
}

/** The nearest time that stands a whole number of device pixels from time 0. */
export const onDevicePixel = (timeUs: number, devicePxPerUs: number): number =>
  Math.round(timeUs * devicePxPerUs) / devicePxPerUs;
