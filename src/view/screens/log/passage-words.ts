import { bpmText } from '../../figures/format';
import { tempoText } from '../../phrase/beat-word';
import type { FindingPlace, WrittenPassage } from './finding-place';

/**
 * Where a finding shows.
 *
 * @example findingPlaceWords({ bar: 5 }) // => 'from bar 5'
 */
export const findingPlaceWords = ({ bar }: Pick<FindingPlace, 'bar'>): string =>
  bar < 1 ? 'from the pickup' : `from bar ${bar}`;

/** What sounds while a finding's passage is heard, also for those who cannot see which button says stop. */
export const passageSoundWords = (
  place: Pick<FindingPlace, 'bar'>,
  { phrase, layer, bpm }: Pick<WrittenPassage, 'phrase' | 'layer' | 'bpm'>,
): string =>
  `Sounds: layer ${layer} as written, ${findingPlaceWords(place)}, at ${tempoText(Number(bpmText(bpm)), phrase.meter)}, with the click. Esc stops it.`;
