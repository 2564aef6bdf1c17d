import { loadMusicReaders } from '../../practice/files/load-music-readers';
import { fetchEngraver } from '../../practice/sheet/sheet-thread';
import { fetchFaces } from '../screens/sheet/fetch-faces';

/** What no take waits for: what reads music, the letters of saved sheets, and their engraver, the largest of all. */
export const LAST: readonly (() => Promise<unknown>)[] = [
  loadMusicReaders,
  () => fetchFaces(['letters', 'title']),
  fetchEngraver,
];
