/** A note of a score as other software writes it: children in the order of MusicXML, with only what is asked for. */
export interface ForeignNote {
  readonly at?: 'chord' | 'grace';
  /** Step and octave, such as "C5"; a rest without. */
  readonly place?: string;
  readonly head?: string;
  /** Divisions; 4 to a quarter. */
  readonly duration?: number;
  readonly voice?: number;
  readonly instrument?: string;
  /** Inside `notations`. */
  readonly notations?: string;
  readonly lyric?: string;
  readonly attributes?: string;
  readonly more?: string;
}

export function foreignNote(note: ForeignNote): string {
  const { at, place, head, duration = 1, voice = 1, instrument, notations, lyric } = note;
  const sound = place
    ? `<unpitched><display-step>${place[0]}</display-step><display-octave>${place[1]}</display-octave></unpitched>`
    : '<rest/>';
  return `<note${note.attributes ?? ''}>${at ? `<${at}/>` : ''}${sound}${
    at === 'grace' ? '' : `<duration>${duration}</duration>`
  }${note.more ?? ''}${instrument ? `<instrument id="${instrument}"/>` : ''}<voice>${voice}</voice>${
    head ? `<notehead>${head}</notehead>` : ''
  }${notations ? `<notations>${notations}</notations>` : ''}${
    lyric ? `<lyric><text>${lyric}</text></lyric>` : ''
  }</note>`;
}

/** A score of bars, each the XML of its notes; four divisions a quarter, in 4/4 unless told otherwise. */
export function foreignScore(
  bars: readonly string[],
  { instruments = '', beats = '4', unit = '4', head = '' } = {},
): string {
  const attributes = `<attributes><divisions>4</divisions><time><beats>${beats}</beats><beat-type>${unit}</beat-type></time><clef><sign>percussion</sign></clef></attributes>`;
  return `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
<score-partwise version="4.0">${head}<part-list><score-part id="P1"><part-name>Kit</part-name>${instruments}</score-part></part-list>
<part id="P1">${bars.map((bar, i) => `<measure number="${i + 1}">${i === 0 ? attributes : ''}${bar}</measure>`).join('\n')}</part></score-partwise>`;
}

/** One instrument for each name, with its `midi-unpitched`. */
export const foreignInstruments = (
  ...list: readonly (readonly [id: string, name: string, midiUnpitched: number])[]
): string =>
  list
    .map(
      ([id, name]) =>
        `<score-instrument id="${id}"><instrument-name>${name}</instrument-name></score-instrument>`,
    )
    .join('') +
  list
    .map(
      ([id, , key]) =>
        `<midi-instrument id="${id}"><midi-channel>10</midi-channel><midi-unpitched>${key}</midi-unpitched></midi-instrument>`,
    )
    .join('');
