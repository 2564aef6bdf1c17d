import { remainder } from '../../time/whole';
import { gridAt } from '../grid';
import type { Phrase } from '../phrase';
import { counted, withLayer, type Varied } from './varied';

/**
 * Everything but the pickup moved `by` partials against the bar (negative: earlier), as one more layer. A whole
 * cycle or more is taken off, so that the cycle's start stays within one cycle of bar 1.
 */
export function displace(phrase: Phrase, by: number): Varied | undefined {
  const before = gridAt(phrase, phrase.layers.length).displace;
  const total = before + by;
  const after = Math.abs(total) < phrase.cycle ? total : remainder(total, phrase.cycle);
  const sentence = `The phrase lies ${counted(Math.abs(by), 'partial')} ${by < 0 ? 'earlier' : 'later'} against the bar.`;
  return withLayer(phrase, 'Displaced', [{ displace: after - before }], sentence);
}
