import { STAFF_PLACES } from '../../notation/staff-places';
import { VOICES, voiceNumber, type Voice } from '../../phrase/model/voice';

/** One line of the strip: the voices that share a place on the staff share a row. */
export interface LaneRow {
  readonly label: string;
  /** For a narrow strip. */
  readonly short: string;
  readonly voices: readonly number[];
}

const SHARED: readonly { label: string; short: string; voices: readonly Voice[] }[] = [
  { label: 'hi-hat', short: 'hat', voices: ['hi-hat open', 'hi-hat closed'] },
  { label: 'ride', short: 'ride', voices: ['ride bell', 'ride'] },
  { label: 'snare', short: 'snare', voices: ['side stick', 'snare'] },
  { label: 'hi-hat foot', short: 'foot', voices: ['hi-hat foot splash', 'hi-hat pedal'] },
];

const SHORT: Partial<Record<Voice, string>> = {
  'high tom': 'high',
  'mid tom': 'mid',
  'floor tom': 'floor',
  'bass drum': 'bass',
  tambourine: 'tamb.',
  'wood block': 'block',
  'hand clap': 'clap',
  vibraslap: 'slap',
};

/**
 * The rows for the voices written and, beside them, the voices struck, top of the staff first.
 *
 * @example laneRows([5, 6, 27], []).map((row) => row.label) // => ['ride', 'bass drum']
 */
export function laneRows(written: readonly number[], struck: readonly number[]): LaneRow[] {
  const rows: LaneRow[] = [];
  const seen = new Set([...written, ...struck]);
  for (const number of [...seen].sort(downTheStaff)) {
    if (rows.some((row) => row.voices.includes(number))) continue;
    const voice = voiceOf(number);
    const shared = SHARED.find((family) => family.voices.includes(voice));
    rows.push({
      label: shared?.label ?? voice,
      short: shared?.short ?? SHORT[voice] ?? voice,
      voices: shared ? shared.voices.map(voiceNumber) : [number],
    });
  }
  return rows;
}

function voiceOf(number: number): Voice {
  const voice = VOICES[number];
  if (voice === undefined) throw new RangeError(`no voice has number ${number}`);
  return voice;
}

const downTheStaff = (a: number, b: number): number =>
  STAFF_PLACES[voiceOf(b)] - STAFF_PLACES[voiceOf(a)] || a - b;

/** For each voice its row, or -1. */
export function rowOfVoice(rows: readonly LaneRow[]): Int8Array {
  const of = new Int8Array(VOICES.length).fill(-1);
  rows.forEach((row, index) => {
    for (const voice of row.voices) of[voice] = index;
  });
  return of;
}
