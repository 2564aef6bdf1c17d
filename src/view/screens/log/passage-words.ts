import type { Passage } from '../../../phrase/model/passage';
import type { FindingPlace, WrittenPassage } from '../../../coach/finding-place';
import { tempoText } from '../../../phrase/model/beat-word';

/**
 * Where a finding shows.
 *
 * @example findingPlaceWords({ first: { note: { bar: 5 } } }) // => 'from bar 5'
 */
export const findingPlaceWords = ({ first: { note } }: Pick<FindingPlace, 'first'>): string =>
  note.bar < 1 ? 'from the pickup' : `from bar ${note.bar}`;

/** What sounds while a finding's passage is heard, also for those who cannot see which button says stop. */
export const passageSoundWords = (
  place: Pick<FindingPlace, 'first'>,
  { phrase, layer, bpm }: Pick<WrittenPassage, 'phrase' | 'layer' | 'bpm'>,
): string =>
  `Sounds: layer ${layer} as written, ${findingPlaceWords(place)}, at ${tempoText(bpm, phrase.meter)}, with the click. Esc stops it.`;

/**
 * What a take was played to, where that changed, up to its last bar: which layers, where the target waited, and where the
 * player was brought back; nothing where it was one layer all along.
 *
 * @example passageWords([{ fromBar: 1, layer: 5 }, { fromBar: 11, layer: 3 }], 16) // => ['layer 5', 'layer 3 from bar 11']
 */
export function passageWords(passages: readonly Passage[], lastBar: number): string[] {
  const played = passages.filter(({ fromBar }, i) => i === 0 || fromBar <= lastBar);
  if (played.length < 2) return [];
  return played.map(({ fromBar, layer, latePartials, countInBars = 0 }, i) => {
    if (i === 0) return `layer ${layer}`;
    if (latePartials !== undefined) return `the phrase waited in bar ${fromBar}`;
    return `layer ${layer}${countInBars > 0 ? ' counted in again' : ''} from bar ${fromBar}`;
  });
}
