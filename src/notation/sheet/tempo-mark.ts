import type { Meter } from '../../time/meter';
import { partialValue } from '../written-values';

/** A picture with its width and its height, hundredths of a millimetre, and what it says. */
export interface TempoMark {
  readonly width: number;
  readonly height: number;
  readonly body: string;
  /** Such as "quarter = 96". */
  readonly words: string;
}

const VALUES: Readonly<Record<number, string>> = { 0: 'quarter', 1: 'eighth', 2: 'sixteenth' };
const HEIGHT = 620;
const FOOT = 540;
const STEM = 165;
const TEXT_SIZE = 440;

/**
 * The tempo with the note that it counts, drawn: fonts of letters have no such note, and those of music are squares
 * where they are missing.
 */
export function tempoMark(meter: Pick<Meter, 'unit' | 'compound'>, bpm: number): TempoMark {
  const { flags, dotted } = partialValue(meter, 1).beat;
  const tempo = String(Math.round(bpm * 100) / 100);
  const flagLines = Array.from(
    { length: Math.max(0, flags) },
    (_, i) =>
      `<path d="M${STEM} ${70 + i * 120}c10 100 150 110 110 260" fill="none" stroke-width="34"/>`,
  );
  const dot = dotted ? `<circle cx="255" cy="${FOOT - 60}" r="30" stroke="none"/>` : '';
  const from = dotted || flags > 0 ? 380 : 290;
  const text = `= ${tempo}`;
  return {
    width: from + text.length * 250,
    height: HEIGHT,
    body: [
      `<ellipse cx="95" cy="${FOOT - 55}" rx="98" ry="68" transform="rotate(-22 95 ${FOOT - 55})" stroke="none"/>`,
      `<path d="M${STEM + 12} ${FOOT - 90}V60" fill="none" stroke-width="24"/>`,
      ...flagLines,
      dot,
      `<text class="tempo" x="${from}" y="${FOOT}" font-size="${TEXT_SIZE}" font-weight="600" stroke="none">${text}</text>`,
    ].join(''),
    words: `${dotted ? 'dotted ' : ''}${VALUES[flags] ?? 'beat'} = ${tempo}`,
  };
}
