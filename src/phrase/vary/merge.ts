import { lcm } from '../../time/whole';
import { layPhrase } from '../cycle-pattern';
import { gridAt } from '../grid';
import { layOn } from '../lay-on';
import type { AddedStroke, Layer, Phrase } from '../phrase';
import { MAX_CYCLE } from '../phrase-file';
import { checkedLayers } from './checked-layer';
import { made, type Made } from './varied';
import { writeOut } from './write-out';

/**
 * Two phrases of one meter and subdivision over each other, as one more layer of the first: the second's strokes
 * are added wherever their limb is free, both cycles started together and written out until they coincide again.
 */
export function merge(first: Phrase, second: Phrase): Made | undefined {
  const layer = second.layers.length;
  const cycle = lcm(first.cycle, second.cycle);
  const sameGrid =
    first.meterText === second.meterText &&
    gridAt(first, first.layers.length).subdivision === gridAt(second, layer).subdivision;
  if (!sameGrid || cycle > MAX_CYCLE) return undefined;
  const written = checkedLayers(writeOut(first, cycle, (partial) => partial % first.cycle))?.phrase;
  if (!written) return undefined;
  const taken = new Set(
    layOn(written, written.layers.length, 1).flatMap(({ limb, position, graces }) =>
      [limb, ...graces.map((grace) => grace.limb)].map((each) => `${position} ${each}`),
    ),
  );
  const add: AddedStroke[] = [];
  const laid = layPhrase(second, layer);
  for (let repeat = 0; repeat < cycle / second.cycle; repeat++)
    for (const { graceStep, limb, voice, level, partial } of laid.pattern(repeat + 1)) {
      const position = partial + repeat * second.cycle + 1;
      if (graceStep === 0 && !taken.has(`${position} ${limb}`))
        add.push({ position, limb, voice, level });
    }
  if (add.length === 0) return undefined;
  const more: Layer = { name: second.title, changes: [{ kind: 'add', add }] };
  return made(
    { ...written, layers: [...written.layers, more] },
    `The main notes of "${second.title}" sound over it wherever their limb is free.`,
  );
}
