import { writeMei } from '../notation/mei/write-mei';
import { writeMxl } from '../notation/musicxml/mxl';
import { writeMusicXml } from '../notation/musicxml/write-musicxml';
import { layerScore } from '../notation/score/layer-score';
import type { Score } from '../notation/score/score';
import { unwrittenParts } from '../notation/score/unwritten-parts';
import { expand } from '../phrase/layers/expand';
import { realignment } from '../phrase/layers/realignment';
import type { Phrase } from '../phrase/model/phrase';
import { midiOfPhrase } from './midi-of-phrase';

/** Files that other music software reads, by the endings of their names. */
export type MusicFormat = 'mid' | 'musicxml' | 'mxl' | 'mei';

/** What is written of a phrase. */
export interface MusicPart {
  /** 1-based, one after the other; undefined for the last, which has all of the phrase. */
  readonly layers?: readonly number[] | undefined;
  /** Of each; undefined for as many as it takes to come round. */
  readonly bars?: number | undefined;
}

/** A phrase as music, and what of it is not in there, in sentences. */
export interface MusicFile {
  readonly content: string | Uint8Array;
  readonly sentences: readonly string[];
}

const SCORE_WRITERS: Readonly<
  Record<Exclude<MusicFormat, 'mid'>, (scores: readonly Score[]) => string | Uint8Array>
> = {
  musicxml: writeMusicXml,
  mxl: writeMxl,
  mei: ([score]) => writeMei(score!),
};

/**
 * A phrase as a file for other music software. Of several layers an MEI file has the first alone.
 *
 * @throws RangeError when the phrase has no such layer, or the bars are no whole number from 1.
 * @example phraseAsMusic(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }, { name: 'Accents' }] }).value, 'musicxml').sentences[0] // => 'Layer 2 of 2 is written; the file does not say which layer made a note.'
 */
export function phraseAsMusic(
  phrase: Phrase,
  format: MusicFormat,
  { layers = [phrase.layers.length], bars }: MusicPart = {},
): MusicFile {
  const isMidi = format === 'mid';
  return {
    content: isMidi
      ? midiOfPhrase(phrase, { layers, bars })
      : SCORE_WRITERS[format](layers.map((layer) => layerScore(phrase, layer, bars))),
    sentences: [
      ...layerOmissions(phrase, layers),
      ...(isMidi ? midiOmissions(phrase, layers) : []),
      ...unwrittenParts(phrase, layers),
    ],
  };
}

function layerOmissions({ layers: { length } }: Phrase, layers: readonly number[]): string[] {
  if (layers.length > 1 || length === 1) return [];
  return [
    `Layer ${layers[0]} of ${length} is written; the file does not say which layer made a note.`,
  ];
}

function midiOmissions(phrase: Phrase, layers: readonly number[]): string[] {
  const hasSplash = layers.some((layer) =>
    expand(phrase, layer, { bars: realignment(phrase, layer).bars }).some(
      ({ voice }) => voice === 'hi-hat foot splash',
    ),
  );
  return hasSplash
    ? ['General MIDI has no key for a foot splash: it is written as the hi-hat pedal.']
    : [];
}
