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
