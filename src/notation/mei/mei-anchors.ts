import type { Meter } from '../../time/meter';
import type { Score, ScoreBar } from '../score/score';
import { partialValue } from '../written-values';
import { meiValue } from './mei-value';
import { xml } from '../xml';

/** The id of a partial of the staff. An xs:ID. */
export const anchorId = ({ layer }: Score, partial: number): string =>
  `l${layer}-at${partial < 0 ? `-u${-partial}` : partial}`;

/** A voice that is neither seen nor heard: a space each partial, so that rows have a place under rests and long notes too. */
export function meiAnchors(score: Score, bar: ScoreBar): string {
  const { meter, subdivision } = score;
  const { value, tuplet } = anchorValue(meter, subdivision);
  let text = '';
  for (let beat = bar.partial; beat < bar.partial + bar.partials; beat += subdivision) {
    const spaces = Array.from({ length: subdivision }, (_, i) =>
      xml('space', { 'xml:id': anchorId(score, beat + i), ...value }),
    ).join('');
    text += tuplet
      ? xml('tuplet', { ...tuplet, 'bracket.visible': 'false', 'num.visible': 'false' }, spaces)
      : spaces;
  }
  return text;
}

function anchorValue(meter: Meter, subdivision: number) {
  const { flags, tuplet, inTimeOf, beat } = partialValue(meter, subdivision);
  if (subdivision === 1) return { value: meiValue(beat), tuplet: undefined };
  return {
    value: meiValue({ flags, dotted: false }),
    tuplet: tuplet === undefined ? undefined : { num: tuplet, numbase: inTimeOf },
  };
}

/** A text at each partial of a bar, to see where it stands. */
export const meiAnchorRow = (score: Score, { partial, partials }: ScoreBar): string =>
  Array.from({ length: partials }, (_, i) =>
    xml('dir', { startid: `#${anchorId(score, partial + i)}`, place: 'below' }, '.'),
  ).join('');
