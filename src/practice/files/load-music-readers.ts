/** What reads music of other software: in no first load. */
export const loadMusicReaders = () => import('./music-readers');
