import type { LaidLayers } from '../laid-layers';
import { readChange } from '../parse-phrase';
import type { LayerFile } from '../phrase-file';
import { layerFile } from '../write-phrase';
import { cuttingAt } from './change-cycle';
import { isPlain, withCheckedLayer, type PlainChange } from './checked-layer';
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
  const layer = twistedLayer(layerFile(layers.at(-1)!), cycle, twist);
  const changes = layer && plainChanges(layer);
  if (!changes) return twisted(laid, twist);
  const below = twistBelow(twist);
  const more = below && withCheckedLayer(below.laid, { name: layer.name, changes });
  return more && { laid: more, sentence: below.sentence };
}

/** What becomes of a layer that numbers no strokes; undefined where that takes the whole phrase to know. */
function twistedLayer(layer: LayerFile, cycle: number, twist: Twist): LayerFile | undefined {
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

function plainChanges({ muted, changes = [] }: LayerFile): readonly PlainChange[] | undefined {
  if (muted) return undefined;
  const plain: PlainChange[] = [];
  for (const file of changes) {
    const change = readChange(file);
    if (!change || !isPlain(change)) return undefined;
    plain.push(change);
  }
  return plain;
}
