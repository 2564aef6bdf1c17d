import { lcm } from '../../time/whole';
import type { LayerStroke } from '../layers/layer-stroke';
import { gridAt } from '../model/grid';
import type { Change, Phrase } from '../model/phrase';
import { MAX_CYCLE } from '../model/phrase-file';
import { DraftCheck } from '../check/draft-check';
import { layerStack } from '../layers/layer-stack';
import { draftOf } from '../model/phrase-draft';
import { variationOf, type LayeredVariation } from './layered-variation';
import { writeOut } from './write-out';

/**
 * Two phrases of one meter and subdivision over each other, as one more layer of the first: the second's strokes
 * are added wherever their limb is free, both cycles started together and written out until they coincide again.
 */
export function merge(first: Phrase, second: Phrase): LayeredVariation | undefined {
  const cycle = lcm(first.cycle, second.cycle);
  const sameGrid =
    first.meterText === second.meterText &&
    gridAt(first).subdivision === gridAt(second).subdivision;
  if (!sameGrid || cycle > MAX_CYCLE) return undefined;
  const written = new DraftCheck(writeOut(first, cycle, (partial) => partial % first.cycle)).stack;
  if (!written) return undefined;
  const taken = new Set(
    written
      .strokes(1)
      .flatMap(({ limb, position, graces }) =>
        [limb, ...graces.map((grace) => grace.limb)].map((each) => `${position} ${each}`),
      ),
  );
  const other = layerStack(second);
  const free: LayerStroke[] = [];
  for (let repeat = 0; repeat < cycle / second.cycle; repeat++)
    for (const stroke of other.strokes(repeat + 1)) {
      const position = stroke.position + repeat * second.cycle;
      if (!stroke.silent && !taken.has(`${position} ${stroke.limb}`))
        free.push({ ...stroke, position });
    }
  if (free.length === 0) return undefined;
  const add = free.map(({ position, limb, voice, level }) => ({ position, limb, voice, level }));
  const draft = draftOf(written.phrase);
  const more = {
    name: second.title,
    changes: [{ kind: 'add', add } as const, ...graceChanges(free, taken)],
  };
  return variationOf(
    { ...draft, layers: [...draft.layers, more] },
    `The strokes of "${second.title}" sound over this phrase wherever its limbs are free.`,
  );
}

const GRACES = [
  { grace: 'flam', count: 1 },
  { grace: 'drag', count: 2 },
] as const;

/** Flams and drags of these strokes, where the other hand, which plays their grace notes, is free too. */
function graceChanges(strokes: readonly LayerStroke[], taken: ReadonlySet<string>): Change[] {
  const isTaken = new Set([...taken, ...strokes.map((one) => `${one.position} ${one.limb}`)]);
  return HANDS.flatMap(([limb, otherHand]) =>
    GRACES.flatMap(({ grace, count }): Change[] => {
      const positions = strokes
        .filter(
          (stroke) =>
            stroke.limb === limb &&
            stroke.graces.filter(({ silent }) => !silent).length === count &&
            !isTaken.has(`${stroke.position} ${otherHand}`),
        )
        .map(({ position }) => position);
      return positions.length > 0
        ? [{ kind: 'set', where: { limb, positions }, set: { grace } }]
        : [];
    }),
  );
}

const HANDS = [
  ['R', 'L'],
  ['L', 'R'],
] as const;
