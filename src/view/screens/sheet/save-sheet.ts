import type { SheetPicture } from '../../../notation/sheet/engrave-sheet';
import { sheetFile } from '../../../notation/sheet/sheet-file';
import type { SheetLook } from '../../../notation/sheet/sheet-look';
import type { Phrase } from '../../../phrase/model/phrase';
import { fileName } from '../../page/file-name';
import { saveFile } from '../../page/save-file';

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

const NO_PICTURE =
  'This browser could not make the picture, which may be too large for it. Save it as SVG, or ask for fewer bars.';

export const saveSvg = ({ phrase, pictures, look }: DrawnSheet): void =>
  saveFile(nameOf(phrase, 'svg'), sheetFile(phrase, pictures, look));

/** Says why there is none, if so. */
export async function savePng({ phrase, pictures, look }: DrawnSheet): Promise<string | undefined> {
  const svg = sheetFile(phrase, pictures, look);
  const picture = new Image();
  picture.src = `data:image/svg+xml;base64,${base64(svg)}`;
  try {
    await picture.decode();
  } catch {
    return NO_PICTURE;
  }
  const { naturalWidth: wide, naturalHeight: high } = picture;
  const scale = Math.min(DPI / SCREEN_DPI, MOST_DOTS / Math.max(wide, high));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(wide * scale);
  canvas.height = Math.round(high * scale);
  const context = canvas.getContext('2d')!;
  // The picture's own ground may end within a dot.
  context.fillStyle = '#fff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const png = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (!png) return NO_PICTURE;
  saveFile(nameOf(phrase, 'png'), png);
  return undefined;
}

function base64(text: string): string {
  let bytes = '';
  for (const byte of new TextEncoder().encode(text)) bytes += String.fromCharCode(byte);
  return btoa(bytes);
}

const nameOf = ({ title }: Phrase, ending: string): string =>
  fileName({ title, otherwise: 'sheet' }, ending);
