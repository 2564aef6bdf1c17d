import { realignment } from '../../phrase/layers/realignment';
import { layerShape } from '../../phrase/layers/layer-shape';
import { changeWords } from '../../phrase/model/change-words';
import type { Phrase } from '../../phrase/model/phrase';
import { swingText } from '../../phrase/model/swing';

/** What stands over a sheet. */
export interface SheetHeading {
  readonly title: string;
  readonly grouping: string;
  /** Cycle and realignment in a line. */
  readonly facts: string;
}

/** A phrase with a layer (1-based) in the words over its sheet. */
export function sheetHeading(phrase: Phrase, layer: number): SheetHeading {
  const { swing } = layerShape(phrase, layer);
  const { bars } = realignment(phrase, layer);
  return {
    title: phrase.title,
    grouping: phrase.groupingText,
    facts: [
      `cycle of ${phrase.cycle} over ${phrase.meterText}`,
      bars === 1 ? 'comes round every bar' : `comes round after ${bars} bars`,
      ...(swing ? [`swing ${swingText(swing)}`] : []),
    ].join(' · '),
  };
}

/** What a layer (1-based) does, a sentence a change. */
export function layerWords(phrase: Phrase, layer: number): readonly string[] {
  const { changes, muted } = phrase.layers[layer - 1]!;
  if (muted) return ['muted: nothing of it is laid on'];
  return changes.map((change) => changeWords(change));
}

/** Over a sheet whose strokes are marked: under it, it would now and then have a page of its own. */
export const MARK_WORDS = 'Underlined: what each layer adds or changes.';
