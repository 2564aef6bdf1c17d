import type { LaidLayers } from '../layers/laid-layers';
import type { Layer } from '../model/phrase';
import { cuttingAt } from './change-cycle';
import { isPlain, withCheckedLayer } from './checked-layer';
import { doubleLayer } from './double-strokes';
import { MIRRORING } from './mirror';
import { rewriteLayer } from './rewrite';
import { rotating } from './rotate';
import type { Made } from './varied';
import { twisted, type Twist } from './vary';

/**
 * What `twisted` makes of a phrase with one layer more than another whose twists are known: a twist that rewrites
 * layer by layer need only rewrite the one that was added.
 */
export function twistedAbove(
  laid: LaidLayers,
  twist: Twist,
  twistBelow: (twist: Twist) => Made | undefined,
): Made | undefined {
  const { layers, cycle } = laid.phrase;
  const layer = twistedLayer(layers.at(-1)!, cycle, twist);
  if (!layer) return twisted(laid, twist);
  const { name, changes, muted } = layer;
  if (muted || !changes.every(isPlain)) return twisted(laid, twist);
  const below = twistBelow(twist);
  const more = below && withCheckedLayer(below.laid, { name, changes });
  return more && { laid: more, sentence: below.sentence };
}

/** What becomes of a layer that numbers no strokes; undefined where that takes the whole phrase to know. */
function twistedLayer(layer: Layer, cycle: number, twist: Twist): Layer | undefined {
  switch (twist.kind) {
    case 'rotate':
      return rewriteLayer(layer, rotating(cycle, twist.by));
    case 'cycle':
      return rewriteLayer(layer, cuttingAt(twist.cycle));
    case 'mirror':
      return rewriteLayer(layer, MIRRORING);
    case 'double strokes':
      return doubleLayer(layer);
    default:
      return undefined;
  }
}
