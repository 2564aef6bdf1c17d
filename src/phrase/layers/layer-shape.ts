import { beats, type Beats } from '../../time/beats';
import { layerStack } from './layer-stack';
import type { Phrase, SwingRatio } from '../model/phrase';

/** How a layer lies in time, and which levels it asks for. */
export interface LayerShape {
  /** Partials per beat. */
  readonly subdivision: number;
  readonly cyclePartials: number;
  readonly partialBeats: Beats;
  readonly cycleBeats: Beats;
  readonly barBeats: Beats;
  /** Where the first cycle starts, from bar 1 beat 1; negative when displaced earlier. */
  readonly startBeats: Beats;
  readonly swing: SwingRatio | undefined;
  readonly hasAccents: boolean;
  readonly hasGhosts: boolean;
}

/**
 * The shape of a layer (1-based).
 *
 * @throws RangeError when the phrase has no such layer.
 * @example layerShape(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1).cycleBeats.toFraction() // => '3/4'
 */
export function layerShape(phrase: Phrase, layer: number): LayerShape {
  const laid = layerStack(phrase, layer);
  const { subdivision, displace, swing } = laid.grid;
  const possible = levelsAskedFor(phrase, layer);
  const found = new Set<string>();
  const cycles = Math.min(laid.period, laid.cyclesInReach);
  for (let cycle = 0; cycle <= cycles && found.size < possible.size; cycle++)
    for (const { level } of laid.pattern(cycle)) if (possible.has(level)) found.add(level);
  return {
    subdivision,
    cyclePartials: phrase.cycle,
    partialBeats: beats(1, subdivision),
    cycleBeats: beats(phrase.cycle, subdivision),
    barBeats: beats(phrase.meter.beatsPerBar),
    startBeats: beats(displace, subdivision),
    swing,
    hasAccents: found.has('accent'),
    hasGhosts: found.has('ghost'),
  };
}

/** Accent and ghost where some change asks for them, so that the search knows when it has seen all. */
function levelsAskedFor(phrase: Phrase, layer: number): ReadonlySet<string> {
  const asked = new Set<string>();
  for (const change of phrase.layers.slice(0, layer).flatMap(({ changes }) => changes)) {
    if (change.kind === 'set' && change.set.level) asked.add(change.set.level);
    if (change.kind === 'accentEvery') asked.add('accent');
    if (change.kind === 'pickup')
      for (const { level } of change.pickup) if (level) asked.add(level);
    if (change.kind === 'add') for (const { level } of change.add) if (level) asked.add(level);
  }
  asked.delete('tap');
  return asked;
}
