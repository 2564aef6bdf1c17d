import type { Score } from '../score/score';
import { meiAnchorRow } from './mei-anchors';
import { meiDocument } from './mei-document';
import { xml } from '../xml';

/**
 * A score as the engraver of the sheet is given it: what is on the staff and, in the row of texts, a stop for each
 * partial. `breaks` are the bars, counted from 0 with the pickup's, that begin a line, which is a page here.
 */
export const sheetMei = (score: Score, breaks: readonly number[]): string =>
  meiDocument(score, { signs: 'none', hasTuplets: false, sound: undefined }, (bar, i) => ({
    ahead: breaks.includes(i) ? xml('pb', {}) : '',
    after: meiAnchorRow(score, bar),
  }));
