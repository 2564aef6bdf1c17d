/** The papers of printers: A4 by ISO 216, Letter by ANSI/ASME Y14.1. */
export const PAPERS = ['A4', 'Letter'] as const;
export type Paper = (typeof PAPERS)[number];

/** How large it is printed: to be read at a desk, or from the throne off a music stand. */
export const SHEET_SIZES = ['desk', 'stand'] as const;
export type SheetSize = (typeof SHEET_SIZES)[number];

/** Between the margins of 15 mm, tenths of a millimetre. */
export const PAPER_WIDTH: Readonly<Record<Paper, number>> = { A4: 1800, Letter: 1859 };

/** The staff is 7.2 mm high at a desk (of the sizes that parts are printed in, common practice, no source). Chosen. */
export const SIZE_FACTOR: Readonly<Record<SheetSize, number>> = { desk: 1, stand: 1.5 };

/** How a layer is put on paper. */
export interface SheetLook {
  readonly paper: Paper;
  readonly size: SheetSize;
  readonly hasStickings: boolean;
  readonly hasCounts: boolean;
  /** Whether strokes that the layer made or changed are underlined. */
  readonly hasMarks: boolean;
}
