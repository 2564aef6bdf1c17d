import { parseMeter, type Meter } from '../../time/meter';
import { bad, type Result } from '../../time/result';
import { remainder } from '../../time/whole';
import { decompose } from '../decompose/decompose';
import { patternStroke, type PatternNote } from '../decompose/target-pattern';
import type { LayerStroke } from '../layers/layer-stroke';
import { layerStack, type LayerStack } from '../layers/layer-stack';
import type { Phrase } from '../model/phrase';
import { MAX_CYCLE } from '../model/phrase-file';
import { swingText } from '../model/swing';
import { excerptWords, type Excerpt } from './excerpt-words';
import { noExercise, type ExerciseError } from './exercise-error';
import { oneLayer } from './one-layer';

/** How an excerpt comes round. */
interface Loop {
  /** Partials from bar 1 beat 1 to where it begins: on a beat. */
  readonly start: number;
  /** Whole beats, in partials. */
  readonly partials: number;
  readonly meter: string;
}

/**
 * A stretch of a layer (1-based) over and over, as a phrase of one layer. Whole bars come round as they are, in their own
 * meter. Anything else begins on the beat that its first partial is in and takes as many beats as it touches, and one
 * more where it would run into itself with less than a beat of rest; its loop is a bar of its own, which the click and the
 * count-in follow. Bars of that many beats of the same kind there may not be: then it is the next longer one.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example excerptOf(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L R K', layers: [{ name: 'Sticking' }] }).value, 1, { from: 6, to: 8 }).value.cycle // => 8
 */
export function excerptOf(
  phrase: Phrase,
  layer: number,
  excerpt: Excerpt,
): Result<Phrase, ExerciseError> {
  const stack = layerStack(phrase, layer);
  const { subdivision, swing } = stack.grid;
  const { start, partials, meter } = loopOf(stack, excerpt);
  if (partials > MAX_CYCLE)
    return noExercise(
      'EXCERPT_TOO_LONG',
      `These notes take ${partials} partials, and at most ${MAX_CYCLE} can be taken out; mark fewer.`,
    );
  const notes = strokesIn(stack, excerpt).map(({ partial, stroke }): PatternNote => ({
    graces: [],
    ...patternStroke(stroke),
    partial: partial - start,
  }));
  if (notes.length === 0)
    return noExercise('EXCERPT_EMPTY', 'Nothing is played here; mark some notes.');
  const { tempoBpm } = phrase;
  const words = excerptWords(phrase.meter, subdivision, excerpt);
  const loop = decompose(
    {
      meter,
      subdivision,
      cyclePartials: partials,
      tempoBpm,
      ...(swing && { swing: swingText(swing) }),
      notes,
      pickup: [],
    },
    phrase.title,
    { cycle: partials },
  );
  if (!loop.ok) return bad({ code: 'EXERCISE_TOO_LARGE', message: loop.errors[0]!.message });
  const { layers } = loop.value;
  const { name } = phrase.layers[layer - 1]!;
  return oneLayer(
    { ...loop.value, layers: layers.with(-1, { ...layers.at(-1)!, name }) },
    layers.length,
    { words },
  );
}

/** The strokes of a stretch that sound, with the partial of each from bar 1 beat 1. */
function strokesIn(
  stack: LayerStack,
  { from, to }: Excerpt,
): readonly { readonly partial: number; readonly stroke: LayerStroke }[] {
  const { displace } = stack.grid;
  const { cycle } = stack.phrase;
  const cycleAt = (partial: number) => Math.floor((partial - displace) / cycle) + 1;
  const placed = stack.strokes(0).map((stroke) => ({ partial: stroke.position, stroke }));
  for (let at = Math.max(1, cycleAt(Math.max(0, from))); at <= cycleAt(to); at++)
    for (const stroke of stack.strokes(at)) {
      const partial = (at - 1) * cycle + displace + stroke.position - 1;
      if (partial >= 0) placed.push({ partial, stroke });
    }
  return placed.filter(({ partial, stroke }) => !stroke.silent && partial >= from && partial <= to);
}

function loopOf({ phrase, grid }: LayerStack, { from, to }: Excerpt): Loop {
  const { subdivision, barPartials } = grid;
  const { meter, meterText } = phrase;
  const isOnBar = (partial: number) => remainder(partial, barPartials) === 0;
  if (isOnBar(from) && isOnBar(to + 1))
    return { start: from, partials: to + 1 - from, meter: meterText };
  const start = from - remainder(from, subdivision);
  const touched = Math.ceil((to + 1 - start) / subdivision);
  const rest = touched * subdivision - (to + 1 - from);
  const beats = rest < subdivision ? touched + 1 : touched;
  const bar = barOf(meter, beats);
  if (bar) return { start, partials: bar.beats * subdivision, meter: bar.text };
  const bars = Math.ceil(beats / meter.beatsPerBar);
  return { start, partials: bars * barPartials, meter: meterText };
}

/** The shortest bar of at least so many beats of a meter's kind; undefined where none is long enough. */
function barOf({ unit, compound }: Meter, least: number) {
  for (let beats = least; ; beats++) {
    const text = `${compound ? beats * 3 : beats}/${unit}`;
    const bar = parseMeter(text);
    if (!bar) return undefined;
    if (bar.compound === compound) return { text, beats };
  }
}
