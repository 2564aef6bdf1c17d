// What reads music of other software.
export { phraseInFile } from '../../exchange/phrase-in-file';
export { readMxl } from '../../notation/musicxml/mxl';
export { readMusicXml } from '../../notation/musicxml/read-musicxml';
