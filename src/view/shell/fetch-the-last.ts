import { loadMusicReaders } from '../../practice/files/load-music-readers';
import { fetchEngraver } from '../../practice/sheet/sheet-thread';
import { fetchGuidePictures } from '../screens/help/guide/guide-pictures';
import { fetchFaces } from '../screens/sheet/fetch-faces';

/** What reads music, the letters of saved sheets, the pictures of the guide, and the engraver, which is larger than all. */
export async function fetchTheLast(): Promise<void> {
  await Promise.allSettled([loadMusicReaders(), fetchFaces(['letters', 'title'])]);
  await fetchGuidePictures();
  await fetchEngraver();
}
