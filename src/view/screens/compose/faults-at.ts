import type { PhraseError } from '../../../phrase/model/phrase-error';

/**
 * The errors at a place of the file and inside it.
 *
 * @example faultsAt([{ place: 'layers[1].name' }, { place: 'layers[12]' }], 'layers[1]').length // => 1
 */
export const faultsAt = (errors: readonly PhraseError[], place: string): readonly PhraseError[] =>
  errors.filter((error) => error.place === place || /^[.[]/.test(after(error.place, place)));

const after = (place: string, start: string): string =>
  place.startsWith(start) ? place.slice(start.length) : '';
