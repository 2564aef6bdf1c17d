import { isByHand } from '../../../take/player';
import type { TakeSummary, TrialSummary } from '../../../take/take-summary';
import { numbersText } from '../../fields/number-list';
import { bpmText } from '../../figures/format';

/**
 * The tempi of a take in the order of playing, each once.
 *
 * @example tempiText({ tempoBpm: 91, trials: [{ bpm: 88 }, { bpm: 92 }, { bpm: 88 }] }) // => '88, 92'
 */
export const tempiText = ({
  tempoBpm,
  trials = [],
}: Pick<TakeSummary, 'tempoBpm'> & {
  readonly trials?: readonly Pick<TrialSummary, 'bpm'>[];
}): string =>
  [...new Set(trials.length > 0 ? trials.map(({ bpm }) => bpm) : [tempoBpm])]
    .map(bpmText)
    .join(', ');

/**
 * What of a take passed: empty where nothing did.
 *
 * @example passedText({ player: 'kit', passed: false, trials: [{ layer: 1, passed: true }, { layer: 2, passed: true }, { layer: 3, passed: true }, { layer: 4, passed: false }] }) // => '1 to 3 passed, 4 not'
 */
export function passedText({
  player,
  passed,
  trials = [],
}: Pick<TakeSummary, 'player' | 'passed'> & {
  readonly trials?: readonly Pick<TrialSummary, 'layer' | 'passed'>[];
}): string {
  if (player !== undefined && !isByHand(player)) return 'does not count';
  const layers = [...new Set(trials.map(({ layer }) => layer))].sort((a, b) => a - b);
  const isPassed = (layer: number) => trials.some((one) => one.layer === layer && one.passed);
  const through = layers.filter(isPassed);
  if (layers.length < 2) return passed || through.length > 0 ? 'passed' : '';
  if (through.length === 0) return '';
  const rest = layers.filter((layer) => !isPassed(layer));
  return `${layersText(through)} passed${rest.length > 0 ? `, ${layersText(rest)} not` : ''}`;
}

const layersText = (layers: readonly number[]) => numbersText(layers).replaceAll('-', ' to ');
