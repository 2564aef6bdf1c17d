import type { Passage } from '../phrase/model/passage';
import type { Phrase } from '../phrase/model/phrase';
import type { Meter } from '../time/meter';
import type { MidiFile } from './midi-file';

/** The marker at the first beat of a count-in. */
export const COUNT_IN = 'Count-in';

/** The marker at the bar line from which a layer (1-based) is played. @example layerMark(2, 'Accents') // => 'Layer 2: Accents' */
export const layerMark = (layer: number, name: string): string => `Layer ${layer}: ${name}`;

const LAYER_MARK = /^Layer ([1-9]\d{0,3})(?:: ?(.*))?$/s;

/** What a file says itself of what it was played to, or is. */
export interface LayersPlayed {
  /** Bars ahead of bar 1. */
  readonly countInBars: number;
  /** In bar order, the first at bar 1. */
  readonly passages: readonly Passage[];
}

/** The same by its markers, with the layers' names. */
export interface LayerMarks extends LayersPlayed {
  readonly names: readonly string[];
}

/**
 * Which layers a file's markers name and where, as this program writes them: "Layer 2: Accents" at a bar line.
 * Undefined where none is, one lies off the bar lines, or the file counts in frames.
 *
 * @param meter of the whole file
 */
export function markedLayers(
  { division, texts }: Pick<MidiFile, 'division' | 'texts'>,
  { beatsPerBar, quartersPerBeat }: Meter,
): LayerMarks | undefined {
  if (division.kind === 'frames') return undefined;
  const barTicks = beatsPerBar * quartersPerBeat.valueOf() * division.ticksPerQuarter;
  const marks = texts.flatMap(({ tick, kind, text }) => {
    const [, layer, name = ''] = (kind === 'marker' && LAYER_MARK.exec(text)) || [];
    return layer === undefined ? [] : [{ bar: tick / barTicks, layer: Number(layer), name }];
  });
  const [first] = marks;
  if (!first || marks.some(({ bar }) => !Number.isInteger(bar))) return undefined;
  return {
    countInBars: first.bar,
    passages: marks.map(({ bar, layer }) => ({ fromBar: bar - first.bar + 1, layer })),
    names: marks.map(({ name }) => name),
  };
}

/**
 * What a file was played to: the layer and the count-in that are given, else what its markers say of a phrase that has
 * their layers by number and name, else the last layer from the first tick on.
 *
 * @example playedTo(readMidiFile(writeMidiFile({ messages: [], tempos: [{ fromBeat: beats(0), bpm: 120 }], meter: parseMeter('4/4'), countInBars: 2, marks: [{ bar: 1, text: 'Layer 1: Sticking' }] })).value, checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }, { name: 'Accents' }] }).value) // => { countInBars: 2, passages: [{ fromBar: 1, layer: 1 }] }
 */
export function playedTo(
  file: Pick<MidiFile, 'division' | 'texts'>,
  phrase: Phrase,
  {
    layer,
    countInBars,
  }: { readonly layer?: number | undefined; readonly countInBars?: number | undefined } = {},
): LayersPlayed {
  const { length } = phrase.layers;
  const marks = markedLayers(file, phrase.meter);
  const isOfPhrase = marks?.passages.every(
    (passage, i) => phrase.layers[passage.layer - 1]?.name.trim() === marks.names[i],
  );
  const marked = isOfPhrase ? marks : undefined;
  return {
    countInBars: countInBars ?? marked?.countInBars ?? 0,
    passages:
      layer === undefined && marked ? marked.passages : [{ fromBar: 1, layer: layer ?? length }],
  };
}
