import moreLetters from '@fontsource-variable/source-sans-3/files/source-sans-3-latin-ext-wght-normal.woff2?url';
import letters from '@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2?url';
import moreTitle from '@fontsource-variable/source-serif-4/files/source-serif-4-latin-ext-wght-normal.woff2?url';
import title from '@fontsource-variable/source-serif-4/files/source-serif-4-latin-wght-normal.woff2?url';
import type { SheetFace, SheetFaceFiles } from '../../../notation/sheet/sheet-faces';
import { base64 } from './base64';

const ADDRESSES: Readonly<Record<SheetFace, string>> = { letters, moreLetters, title, moreTitle };

/** What has come once is there for the next file, with a connection or without. */
const files: Partial<Record<SheetFace, string>> = {};

/** The files of faces, which the page itself uses; undefined when one does not come. */
export async function fetchFaces(faces: readonly SheetFace[]): Promise<SheetFaceFiles | undefined> {
  try {
    const found = faces.map(async (face) => [face, (files[face] ??= await fetched(face))] as const);
    return Object.fromEntries(await Promise.all(found));
  } catch {
    return undefined;
  }
}

async function fetched(face: SheetFace): Promise<string> {
  const answer = await fetch(ADDRESSES[face]);
  if (!answer.ok) throw new Error(`${answer.status}`);
  return base64(new Uint8Array(await answer.arrayBuffer()));
}
