import { loadMusicReaders } from '../../practice/files/load-music-readers';
import { keepEngraver } from '../../practice/sheet/kept-engraver';
import { fetchFaces } from '../screens/sheet/fetch-faces';

/** What reads music, the letters of saved sheets, and their engraver, which is larger than everything else. */
export async function fetchTheLast(): Promise<void> {
  await Promise.allSettled([loadMusicReaders(), fetchFaces(['letters', 'title'])]);
  await keepEngraver();
}
