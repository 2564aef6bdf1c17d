import { layerShape } from '../../phrase/layers/layer-shape';
import type { Phrase } from '../../phrase/model/phrase';
import { realignment } from '../../phrase/layers/realignment';
import { swingText } from '../../phrase/model/swing';
import { subdivisionWord } from '../../phrase/model/subdivision-word';

/** A phrase at a layer in one line: subdivision, cycle over meter, where they meet. */
export function phraseLine(phrase: Phrase, layer: number): string {
  const { subdivision, swing } = layerShape(phrase, layer);
  return [
    subdivisionWord(phrase.meter, subdivision) + (swing ? `, swung ${swingText(swing)}` : ''),
    `cycle of ${phrase.cycle} over ${phrase.meterText}`,
    `meets the bar line ${meetsBarLineText(phrase, layer)}`,
  ].join(' · ');
}

/** After how many bars the cycle starts where it did. */
export function meetsBarLineText(phrase: Phrase, layer: number): string {
  const { bars } = realignment(phrase, layer);
  return bars === 1 ? 'every bar' : `after ${bars} bars`;
}
