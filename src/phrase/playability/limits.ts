import type { Phrase } from '../model/phrase';
import { tempoRange } from '../model/tempo-range';
import { playability, type PlayabilityProblem } from './playability';

/** A little above a limit, beats per minute: the first notes that go beyond it, and no others. */
const JUST_ABOVE = 0.01;

/**
 * What stands in the way of a layer (1-based) at tempi from one on (beats per minute) up to the quickest that the
 * phrase may have: of each kind the notes that come first, the lowest tempo first.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example limitsFrom(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R', layers: [{ name: 'Sticking' }] }).value, 1, 100).map(({ fromBpm }) => fromBpm) // => [105, 150]
 */
export function limitsFrom(
  phrase: Phrase,
  layer: number,
  fromBpm: number,
): readonly PlayabilityProblem[] {
  const { most } = tempoRange(phrase.meter, phrase.subdivision);
  return playability(phrase, layer, most)
    .problems.filter((problem) => problem.fromBpm >= fromBpm)
    .map((last) => {
      const { problems } = playability(phrase, layer, last.fromBpm + JUST_ABOVE);
      return problems.find(({ sentence }) => sentence === last.sentence) ?? last;
    });
}
