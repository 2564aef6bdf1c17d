import type { Passage } from '../../../phrase/model/passage';

/**
 * Which layers a take was played to, where there were several, up to its last bar; nothing for one.
 *
 * @example passageWords([{ fromBar: 1, layer: 5 }, { fromBar: 11, layer: 3 }], 16) // => ['layer 5', 'layer 3 from bar 11']
 */
export function passageWords(passages: readonly Passage[], lastBar: number): string[] {
  const played = passages.filter(({ fromBar }, i) => i === 0 || fromBar <= lastBar);
  if (played.length < 2) return [];
  return played.map(({ fromBar, layer }, i) =>
    i === 0 ? `layer ${layer}` : `layer ${layer} from bar ${fromBar}`,
  );
}
