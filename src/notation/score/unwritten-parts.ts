import { checkDraft } from '../../phrase/check/draft-check';
import { changeWords } from '../../phrase/model/change-words';
import { stepText } from '../../phrase/model/grouping-text';
import type { Phrase } from '../../phrase/model/phrase';
import { draftOf, type LayerDraft, type PhraseDraft } from '../../phrase/model/phrase-draft';
import { swingText } from '../../phrase/model/swing';
import { beats } from '../../time/beats';
import { layerScore } from './layer-score';
import type { Score } from './score';

/** A phrase without something of it, and what is said where nobody sees that it is gone. */
interface Less {
  readonly draft: PhraseDraft;
  /** Where it is laid on, 1-based: what a later layer takes away has been there. */
  readonly layer: number;
  readonly sentence: string;
}

/**
 * What of a phrase these layers (1-based) do not show in notes, so that no file of notes holds it: a swing that moves
 * none, grace notes of silent strokes, muted layers, changes that none is different for. In sentences.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example unwrittenParts(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 3, grouping: 'R L K', swing: '2:1', layers: [{ name: 'Sticking' }] }).value, [1]) // => ['Swing 2:1 moves no note and is left out.']
 */
export function unwrittenParts(phrase: Phrase, layers: readonly number[]): readonly string[] {
  const isSeen = ({ draft, layer: own }: Less): boolean => {
    const less = checkDraft(draft);
    if (!less.ok) return true;
    return [own, ...layers].some((layer) => !isSameScore(layerScore(phrase, layer), less.value));
  };
  return [
    ...withoutSwing(draftOf(phrase)),
    ...withoutGraces(phrase),
    ...withoutChanges(draftOf(phrase), Math.max(...layers)),
  ]
    .filter((less) => !isSeen(less))
    .map(({ sentence }) => sentence);
}

function withoutSwing({ swing, ...draft }: PhraseDraft): readonly Less[] {
  if (swing === undefined) return [];
  return [{ draft, layer: 1, sentence: `Swing ${swing} moves no note and is left out.` }];
}

function withoutGraces(phrase: Phrase): readonly Less[] {
  return phrase.grouping.flatMap((step, i) => {
    if (step.every(({ graces }) => graces.length === 0)) return [];
    const plain = step.map((stroke) => ({ ...stroke, graces: [] }));
    const grouping = phrase.grouping.with(i, plain).map(stepText).join(' ');
    const sentence = `The grace notes of position ${i + 1} are silent and left out.`;
    return [{ draft: { ...draftOf(phrase), grouping, cycle: phrase.cycle }, layer: 1, sentence }];
  });
}

/** Without one change of the layers up to this one (1-based), each in turn; of a muted layer without all of them. */
function withoutChanges(draft: PhraseDraft, upTo: number): readonly Less[] {
  const withLayer = (i: number, layer: LayerDraft) => ({
    ...draft,
    layers: draft.layers.with(i, layer),
  });
  return draft.layers.slice(0, upTo).flatMap((layer, i): readonly Less[] => {
    const { name, changes, muted } = layer;
    const named = `Layer ${i + 1}, “${name}”`;
    if (muted)
      return [
        {
          draft: withLayer(i, { name, changes: [] }),
          layer: i + 1,
          sentence: `${named}, is muted and left out.`,
        },
      ];
    return changes.map((change, c) => ({
      draft: withLayer(i, { name, changes: changes.toSpliced(c, 1) }),
      layer: i + 1,
      sentence: `${named}: “${changeWords(change)}” changes no note that is written and is left out.`,
    }));
  });
}

const STRAIGHT = beats(1);

/** Whether a layer of another phrase is written as this one is; which layer made a note stands in no file. */
function isSameScore(score: Score, phrase: Phrase): boolean {
  const bars = score.bars.filter(({ number }) => number >= 1).length;
  return written(score) === written(layerScore(phrase, score.layer, bars));
}

const written = ({ bars, swing, displace }: Score): string =>
  JSON.stringify([bars, swingText(swing ?? STRAIGHT), displace], (key, value: unknown) =>
    key === 'isNew' ? undefined : value,
  );
