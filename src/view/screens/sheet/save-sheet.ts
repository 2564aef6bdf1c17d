import { phraseAsMusic, type MusicFormat, type MusicPart } from '../../../exchange/phrase-as-music';
import type { SheetPicture } from '../../../notation/sheet/engrave-sheet';
import { facesOf } from '../../../notation/sheet/sheet-faces';
import { sheetFile } from '../../../notation/sheet/sheet-file';
import type { SheetLook } from '../../../notation/sheet/sheet-look';
import type { Phrase } from '../../../phrase/model/phrase';
import { bad, good, type Result } from '../../../time/result';
import { fileName } from '../../page/file-name';
import { saveFile } from '../../page/save-file';
import { WHITE_PAPER } from '../../theme/palette';
import { base64 } from './base64';
import { fetchFaces } from './fetch-faces';

/** A sheet that has been engraved. */
export interface DrawnSheet {
  readonly phrase: Phrase;
  readonly pictures: readonly SheetPicture[];
  readonly look: SheetLook;
}

/** Dots per inch of the picture: as printers print. */
const DPI = 300;
const SCREEN_DPI = 96;
/** The most that browsers draw on, dots each way (Firefox, 11,180 by 11,180; Chromium more; from memory). */
const MOST_DOTS = 11_000;

const SHEET_FILE_MESSAGES = {
  NO_PICTURE:
    'This browser could not make the picture, which may be too large for it. Save it as SVG, or ask for fewer bars.',
  NO_LETTERS:
    'The letters that go into the file could not be fetched: the connection is gone. Save it again when it is back.',
} as const;

/** Why there is no file of a sheet. */
export interface SheetFileProblem {
  readonly code: keyof typeof SHEET_FILE_MESSAGES;
  readonly message: string;
}

const noFile = (code: SheetFileProblem['code']) =>
  bad<SheetFileProblem>({ code, message: SHEET_FILE_MESSAGES[code] });

/** Errors: the letters could not be fetched. */
export async function saveSvg(sheet: DrawnSheet): Promise<Result<void, SheetFileProblem>> {
  const svg = await fileOf(sheet);
  if (svg === undefined) return noFile('NO_LETTERS');
  saveFile(nameOf(sheet.phrase, 'svg'), svg);
  return good(undefined);
}

/** Errors: the letters could not be fetched, or the browser makes no picture as large. */
export async function savePng(sheet: DrawnSheet): Promise<Result<void, SheetFileProblem>> {
  const svg = await fileOf(sheet);
  if (svg === undefined) return noFile('NO_LETTERS');
  const picture = new Image();
  picture.src = `data:image/svg+xml;base64,${base64(new TextEncoder().encode(svg))}`;
  try {
    await picture.decode();
  } catch {
    return noFile('NO_PICTURE');
  }
  const { naturalWidth: wide, naturalHeight: high } = picture;
  const scale = Math.min(DPI / SCREEN_DPI, MOST_DOTS / Math.max(wide, high));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(wide * scale);
  canvas.height = Math.round(high * scale);
  const context = canvas.getContext('2d')!;
  // The picture's own ground may end within a dot.
  context.fillStyle = WHITE_PAPER;
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const png = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (!png) return noFile('NO_PICTURE');
  saveFile(nameOf(sheet.phrase, 'png'), png);
  return good(undefined);
}

async function fileOf({ phrase, pictures, look }: DrawnSheet): Promise<string | undefined> {
  const faces = await fetchFaces(facesOf(phrase));
  return faces && sheetFile(phrase, pictures, look, faces);
}

const nameOf = ({ title }: Phrase, ending: string): string =>
  fileName({ title, otherwise: 'sheet' }, ending);

/** Saves a phrase for other music software; says what of it the file does not hold. */
export function saveMusic(phrase: Phrase, format: MusicFormat, part: MusicPart): string {
  const { content, sentences } = phraseAsMusic(phrase, format, part);
  saveFile(fileName({ title: phrase.title, otherwise: 'sheet' }, format), content);
  return sentences.join(' ');
}
