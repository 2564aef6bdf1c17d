import { loadMusicReaders } from '../../practice/files/load-music-readers';
import { keepEngraver } from '../../practice/sheet/kept-engraver';
import { fetchFaces } from '../screens/sheet/fetch-faces';

/** What no take waits for: what reads music, the letters of saved sheets, and their engraver, the largest of all. */
export const LAST: readonly (() => Promise<unknown>)[] = [
  loadMusicReaders,
  () => fetchFaces(['letters', 'title']),
  keepEngraver,
];
