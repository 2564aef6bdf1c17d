import type { SheetLook } from '../../src/notation/sheet/sheet-look';

/** A sheet with all that can be on it. */
export const A4_AT_A_DESK: SheetLook = {
  paper: 'A4',
  size: 'desk',
  hasStickings: true,
  hasCounts: true,
  hasMarks: true,
};
