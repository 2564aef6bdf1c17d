import { loadMusicReaders } from '../../practice/files/load-music-readers';
import { fetchEngraver } from '../../practice/sheet/sheet-thread';

/** What reads music, and the engraver of sheets, which is larger than everything else. */
export async function fetchTheLast(): Promise<void> {
  await Promise.allSettled([loadMusicReaders()]);
  await fetchEngraver();
}
