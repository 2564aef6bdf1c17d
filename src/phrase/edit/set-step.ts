import type { DraftCheck } from '../check/draft-check';
import { parseGrouping } from '../check/parse-grouping';
import { stepText } from '../model/grouping-text';
import type { RootStep, RootStroke } from '../model/phrase';
import type { PhraseDraft } from '../model/phrase-draft';
import { cycleStrokes } from './cycle-strokes';
import { editHead } from './edit-head';
import { addNote, removeNote, setNote, silentLimbs } from './edit-position';

const GRACES = ['none', 'flam', 'drag'] as const;

/**
 * Writes what sounds on one position of the cycle (1-based): on the first layer into the grouping itself while the
 * cycle is no longer than the grouping, elsewhere as changes of the layer. The same draft where layers up to this one
 * are no phrase.
 */
export function setStep(
  work: DraftCheck,
  layer: number,
  position: number,
  step: RootStep,
): PhraseDraft {
  const { draft } = work;
  const steps = draft.grouping.split(/(\s+)/);
  const places = steps.flatMap((text, i) => (text.trim() === '' ? [] : [i]));
  const place = places[position - 1];
  if (layer === 1 && place !== undefined && (draft.cycle ?? 0) <= places.length)
    return editHead(draft, { grouping: steps.with(place, stepText(step)).join('') });
  const stack = work.upTo(layer);
  if (!stack) return draft;
  const before = cycleStrokes(stack.phrase, layer).filter((stroke) => stroke.position === position);
  const gone = before.filter(({ limb }) => !step.some((stroke) => stroke.limb === limb));
  const came = step.filter(({ limb }) => !before.some((stroke) => stroke.limb === limb));
  const silent = silentLimbs(stack, position);
  const fresh = came.filter(({ limb }) => !silent.includes(limb));
  let edited = work;
  gone.forEach(({ limb }, i) => {
    const other = fresh[i]?.limb;
    edited = edited.with(
      other
        ? setNote(edited, layer, { position, limb }, { limb: other })
        : removeNote(edited, layer, { position, limb }),
    );
  });
  for (const { limb } of came.filter(
    (stroke) => fresh.indexOf(stroke) >= gone.length || silent.includes(stroke.limb),
  ))
    edited = edited.with(addNote(edited, layer, { position, limb }));
  for (const stroke of step) edited = edited.with(withGraces(edited, layer, position, stroke));
  return edited.draft;
}

function withGraces(
  work: DraftCheck,
  layer: number,
  position: number,
  { limb, graces }: RootStroke,
): PhraseDraft {
  const stack = work.upTo(layer);
  const now = stack && cycleStrokes(stack.phrase, layer);
  const found = now?.find((stroke) => stroke.position === position && stroke.limb === limb);
  const grace = GRACES[graces.length];
  if (!found || !grace || found.graces.length === graces.length) return work.draft;
  return setNote(work, layer, { position, limb }, { grace });
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
