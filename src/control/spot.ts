import { passageSpan, type Plan } from '../match/plan';
import { roundPartials } from '../phrase/exercise/excerpt-places';
import { excerptOf } from '../phrase/exercise/excerpt';
import { partialWords, type Excerpt } from '../phrase/exercise/excerpt-words';
import { firstPlace } from '../phrase/exercise/first-place';
import { gridAt } from '../phrase/model/grid';
import type { Phrase } from '../phrase/model/phrase';
import { remainder } from '../time/whole';

/** A place of a take that the player marked while playing. */
export interface Spot {
  /** Integer microseconds from bar 1 beat 1. */
  readonly atUs: number;
  /** The layer that was due, 1-based. */
  readonly layer: number;
  /** Where it is in the take, as it is counted. */
  readonly words: string;
  /** What to practise of the layer: the bar up to the end of the beat that was marked. */
  readonly excerpt: Excerpt;
}

/**
 * The place of a plan at a time; undefined in the count-in, where nothing has been played. Nobody marks ahead of what
 * went wrong, so the last bar is what to practise: chosen, not measured.
 *
 * @example spotAt({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 60, subdivision: 4, grouping: 'R L R K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(60), windows: {} }, 5300000).words // => 'bar 2, 2 e'
 */
export function spotAt(
  plan: Pick<Plan, 'phrase' | 'passages' | 'tempo' | 'windows'>,
  atUs: number,
): Spot | undefined {
  if (atUs < 0) return undefined;
  const { phrase, passages, tempo } = plan;
  const spans = passages.map((_, index) => passageSpan(plan, index));
  const passage = spans.findLast(({ from }) => tempo.usAt(from) <= atUs) ?? spans[0]!;
  const { subdivision, barPartials } = gridAt(phrase, passage.layer);
  const beat = tempo.beatAt(atUs);
  const inPassage = Math.floor((beat - passage.from.valueOf()) * subdivision + NEARLY);
  const to = inPassage - remainder(inPassage, subdivision) + subdivision - 1;
  const excerpt = { from: Math.max(0, to + 1 - barPartials), to };
  return {
    atUs,
    layer: passage.layer,
    words: partialWords(phrase.meter, subdivision, Math.floor(beat * subdivision + NEARLY)),
    excerpt: firstPlace(excerpt, roundPartials(phrase, passage.layer)),
  };
}

/** A time that was rounded to a microsecond is still on its partial. */
const NEARLY = 1e-4;

/** Whether something is played there that can be practised by itself. @throws RangeError when the phrase has no such layer. */
export const isPractisable = (phrase: Phrase, { layer, excerpt }: Spot): boolean =>
  excerptOf(phrase, layer, excerpt).ok;
