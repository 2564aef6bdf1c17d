import { remainder } from '../../time/whole';
import type { LaidLayers } from '../layers/laid-layers';
import { withLayer, type Made } from './varied';
import { countOf } from '../model/words';

/**
 * Everything but the pickup moved `by` partials against the bar (negative: earlier), as one more layer. A whole
 * cycle or more is taken off, so that the cycle's start stays within one cycle of bar 1.
 */
export function displace(laid: LaidLayers, by: number): Made | undefined {
  const { phrase, grid } = laid;
  const before = grid.displace;
  const total = before + by;
  const after = Math.abs(total) < phrase.cycle ? total : remainder(total, phrase.cycle);
  const sentence = `The phrase lies ${countOf(Math.abs(by), 'partial')} ${by < 0 ? 'earlier' : 'later'} against the bar.`;
  return withLayer(laid, 'Displaced', [{ kind: 'displace', displace: after - before }], sentence);
}
