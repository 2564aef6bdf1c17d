import { parseGrouping } from '../file/parse-grouping';
import { layOn } from '../layers/lay-on';
import type { Limb } from '../model/limb';
import type { Phrase, RootStep, RootStroke } from '../model/phrase';
import type { PhraseFile } from '../model/phrase-file';
import { stepText } from '../model/grouping-text';
import { cycleStrokes } from './cycle-strokes';
import { editHead } from './edit-head';
import { addNote, removeNote, setNote } from './edit-position';
import { phraseUpTo } from './phrase-up-to';

const GRACES = ['none', 'flam', 'drag'] as const;

/**
 * Writes what sounds on one position of the cycle (1-based): on the first layer into the grouping itself while the
 * cycle is no longer than the grouping, elsewhere as changes of the layer. The same file where layers up to this one
 * are no phrase.
 */
export function setStep(
  file: PhraseFile,
  layer: number,
  position: number,
  step: RootStep,
): PhraseFile {
  const steps = file.grouping.split(/(\s+)/);
  const places = steps.flatMap((text, i) => (text.trim() === '' ? [] : [i]));
  const place = places[position - 1];
  if (layer === 1 && place !== undefined && (file.cycle ?? 0) <= places.length)
    return editHead(file, { grouping: steps.with(place, stepText(step)).join('') });
  const phrase = phraseUpTo(file, layer);
  if (!phrase) return file;
  const before = cycleStrokes(phrase, layer).filter((stroke) => stroke.position === position);
  const gone = before.filter(({ limb }) => !step.some((stroke) => stroke.limb === limb));
  const came = step.filter(({ limb }) => !before.some((stroke) => stroke.limb === limb));
  const silent = silentLimbs(phrase, layer, position);
  const fresh = came.filter(({ limb }) => !silent.includes(limb));
  let edited = file;
  gone.forEach(({ limb }, i) => {
    const other = fresh[i]?.limb;
    edited = other
      ? setNote(edited, layer, { position, limb }, { limb: other })
      : removeNote(edited, layer, { position, limb });
  });
  for (const { limb } of came.filter(
    (stroke) => fresh.indexOf(stroke) >= gone.length || silent.includes(stroke.limb),
  ))
    edited = addNote(edited, layer, { position, limb });
  for (const stroke of step) edited = withGraces(edited, layer, position, stroke);
  return edited;
}

/** Limbs whose stroke there is silent: it sounds again rather than another coming. */
const silentLimbs = (phrase: Phrase, layer: number, position: number): readonly Limb[] =>
  layOn(phrase, layer, 1)
    .filter((stroke) => stroke.position === position && stroke.silent)
    .map(({ limb }) => limb);

function withGraces(
  file: PhraseFile,
  layer: number,
  position: number,
  { limb, graces }: RootStroke,
): PhraseFile {
  const phrase = phraseUpTo(file, layer);
  const now = phrase && cycleStrokes(phrase, layer);
  const found = now?.find((stroke) => stroke.position === position && stroke.limb === limb);
  const grace = GRACES[graces.length];
  if (!found || !grace || found.graces.length === graces.length) return file;
  return setNote(file, layer, { position, limb }, { grace });
}

/**
 * One step of a grouping from text, or undefined when it is not one step.
 *
 * @example parseStep('lR+K')?.length // => 2
 */
export function parseStep(text: string): RootStep | undefined {
  const parsed = parseGrouping(text);
  return parsed.ok && parsed.value.length === 1 ? parsed.value[0] : undefined;
}
