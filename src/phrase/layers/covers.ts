import { expand } from './expand';
import { layerShape } from './layer-shape';
import { LIMBS } from '../model/limb';
import type { Phrase } from '../model/phrase';

/** What a phrase as a whole gives to practise, in trade words. */
export function covers(phrase: Phrase): readonly string[] {
  const notes = expand(phrase, phrase.layers.length, { cycles: 1 });
  const shape = layerShape(phrase, phrase.layers.length);
  const voices = new Set(notes.map(({ voice }) => voice));
  const limbs = new Set(notes.map(({ limb }) => limb));
  const graces = Math.max(0, ...notes.map(({ graceStep }) => graceStep));
  const has = (kind: string) =>
    phrase.layers.some(({ changes }) => changes.some((change) => change.kind === kind));
  const told: [boolean, string][] = [
    [phrase.grouping.length !== phrase.cycle, `grouping of ${phrase.grouping.length}`],
    [shape.hasAccents, 'accents'],
    [shape.hasGhosts, 'ghosts'],
    [graces === 1, 'flams'],
    [graces > 1, 'drags'],
    [[...voices].some((voice) => voice.includes('tom')), 'toms'],
    [voices.has('hi-hat open'), 'open hi-hat'],
    [limbs.has('F'), 'left foot'],
    [limbs.size === LIMBS.length, 'four limbs'],
    [has('pickup'), 'pickup'],
    [has('displace'), 'displacement'],
    [shape.swing !== undefined, 'swing'],
  ];
  return told.filter(([holds]) => holds).map(([, word]) => word);
}
