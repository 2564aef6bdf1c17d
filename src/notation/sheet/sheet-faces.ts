import { sheetHeading, layerWords } from './sheet-heading';
import type { Phrase } from '../../phrase/model/phrase';

/** The faces of a sheet's text, by what they are called in its file. */
export const SHEET_FACES = {
  letters: 'Sheet Sans',
  moreLetters: 'Sheet Sans Extended',
  title: 'Sheet Serif',
  moreTitle: 'Sheet Serif Extended',
} as const;
export type SheetFace = keyof typeof SHEET_FACES;
/** WOFF2 files in base64, each of all the weights that a sheet uses. */
export type SheetFaceFiles = Readonly<Partial<Record<SheetFace, string>>>;

/** Neither Latin 1 nor a mark of everyday print, which the first files of the packages hold. */
const NOT_IN_FIRST_FILES =
  /[^ -\u00FF\u0131\u0152\u0153\u02BB\u02BC\u02C6\u02DA\u02DC\u2000-\u206F\u20AC\u2122]/;

/**
 * The faces whose letters a sheet of this phrase may need: the extended ones only where there are letters for them.
 *
 * @example facesOf(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value) // => ['letters', 'title']
 */
export function facesOf(phrase: Phrase): readonly SheetFace[] {
  const { title, grouping, facts } = sheetHeading(phrase, phrase.layers.length);
  const layers = phrase.layers.flatMap(({ name }, i) => [name, ...layerWords(phrase, i + 1)]);
  const isPlain = [title, grouping, facts, ...layers].every(
    (text) => !NOT_IN_FIRST_FILES.test(text),
  );
  return isPlain ? ['letters', 'title'] : ['letters', 'title', 'moreLetters', 'moreTitle'];
}

/** Rules that bring the faces along. */
export const faceRules = (files: SheetFaceFiles): string =>
  Object.entries(files)
    .map(
      ([face, data]) =>
        `@font-face{font-family:"${SHEET_FACES[face as SheetFace]}";font-weight:200 900;src:url(data:font/woff2;base64,${data}) format("woff2")}`,
    )
    .join('');
