import { xmlText } from '../xml';
import type { Phrase } from '../../phrase/model/phrase';
import type { SheetPicture } from './engrave-sheet';
import { faceRules, SHEET_FACES, type SheetFaceFiles } from './sheet-faces';
import { MARK_WORDS, layerWords, sheetHeading } from './sheet-heading';
import { PAPER_WIDTH, type SheetLook } from './sheet-look';
import { tempoMark } from './tempo-mark';

/** The file's own faces, and for letters that none of them has those that some machine has. */
const LETTERS = `'${SHEET_FACES.letters}', '${SHEET_FACES.moreLetters}', 'Helvetica Neue', Arial, sans-serif`;
const TITLE = `'${SHEET_FACES.title}', '${SHEET_FACES.moreTitle}', Georgia, 'Times New Roman', serif`;
const MARGIN = 800;
/** Sizes of the words over the music, hundredths of a millimetre. Chosen. */
const SIZE = { title: 750, grouping: 450, facts: 330, layer: 480, words: 310 } as const;

/**
 * The sheet as an SVG file that stands alone: music as outlines, letters as text with the files of its faces in it,
 * ink on white.
 *
 * @example sheetFile(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, [{ layer: 1, layerName: 'Sticking', lines: [], glyphs: {} }], { paper: 'A4', hasMarks: false }, {}).includes('<title>Slip</title>') // => true
 */
export function sheetFile(
  phrase: Phrase,
  pictures: readonly SheetPicture[],
  look: Pick<SheetLook, 'paper' | 'hasMarks'>,
  faces: SheetFaceFiles,
): string {
  const wide = PAPER_WIDTH[look.paper] * 10;
  const { title, grouping, facts } = sheetHeading(phrase, pictures.at(-1)!.layer);
  const tempo = tempoMark(phrase.meter, phrase.tempoBpm);
  let y = 0;
  const parts: string[] = [];
  const words = (text: string, size: number, more = '') => {
    y += size * 1.3;
    parts.push(
      `<text x="0" y="${Math.round(y)}" font-size="${size}" stroke="none"${more}>${xmlText(text)}</text>`,
    );
  };
  const tempoAt = `translate(${wide - tempo.width}, ${SIZE.title * 1.3 - tempo.height + 80})`;
  parts.push(`<g transform="${tempoAt}">${tempo.body}</g>`);
  words(title, SIZE.title, ` font-family="${TITLE}" font-weight="600"`);
  words(grouping, SIZE.grouping, ' font-weight="600"');
  words(facts, SIZE.facts);
  if (look.hasMarks && pictures.length > 1) words(MARK_WORDS, SIZE.words);
  for (const { layer, layerName, lines } of pictures) {
    y += 450;
    words(`${layer} ${layerName}`, SIZE.layer, ` font-family="${TITLE}" font-weight="600"`);
    for (const sentence of layerWords(phrase, layer)) words(sentence, SIZE.words);
    y += 250;
    for (const line of lines) {
      const high = Math.round((line.height * wide) / line.width);
      parts.push(
        `<svg x="0" y="${Math.round(y)}" width="${wide}" height="${high}" viewBox="0 0 ${line.width} ${line.height}">${line.body}</svg>`,
      );
      y += high + 150;
    }
  }
  const [width, height] = [wide + 2 * MARGIN, Math.round(y) + 2 * MARGIN];
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width / 100}mm" height="${height / 100}mm" viewBox="${-MARGIN} ${-MARGIN} ${width} ${height}" font-family="${LETTERS}" color="#000" fill="currentColor" stroke="currentColor">`,
    `<title>${xmlText(title)}</title>`,
    `<style>${faceRules(faces)}</style>`,
    `<defs>${glyphOutlines(pictures)}</defs>`,
    `<rect x="${-MARGIN}" y="${-MARGIN}" width="${width}" height="${height}" fill="#fff" stroke="none"/>`,
    ...parts,
    '</svg>',
    '',
  ].join('\n');
}

/** The outlines of sheets under the names that their lines call them by. */
export const glyphOutlines = (pictures: readonly SheetPicture[]): string =>
  [...new Map(pictures.flatMap(({ glyphs }) => Object.entries(glyphs)))]
    .map(([code, outline]) => `<path id="glyph-${code}" transform="scale(1,-1)" d="${outline}"/>`)
    .join('');
