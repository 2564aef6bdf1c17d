import { loadMusicReaders } from '../../practice/files/load-music-readers';
import { keepEngraver } from '../../practice/sheet/kept-engraver';
import { fetchGuidePictures } from '../screens/help/guide/guide-pictures';
import { fetchFaces } from '../screens/sheet/fetch-faces';

/** What no take waits for: readers of music, letters of saved sheets, the guide's pictures, the engraver, largest of all. */
export const LAST: readonly (() => Promise<unknown>)[] = [
  loadMusicReaders,
  () => fetchFaces(['letters', 'title']),
  fetchGuidePictures,
  keepEngraver,
];
