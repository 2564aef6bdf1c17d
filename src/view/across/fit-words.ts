import type { Fit, LeftOver } from '../../phrase/form/fit-form';
import type { Phrase } from '../../phrase/model/phrase';
import { freeTitle } from '../../phrase/model/free-title';
import { countOf } from '../../words/words';
import { tempoText } from '../../phrase/model/beat-word';

/** What a way is called. */
export const FIT_NAMES: Readonly<Record<Fit['kind'], string>> = {
  'as it is': 'As it is',
  'cut the last cycle': 'Cut the last cycle',
  'rest first': 'Rest first',
  'start displaced': 'Start inside the cycle',
  'add a tail': 'Add a tail',
};

/** What is left over, in one sentence. */
export function leftOverWords(
  { formPartials, cycles, remainingPartials }: LeftOver,
  cycle: number,
): string {
  const left = remainingPartials === 0 ? 'nothing' : countOf(remainingPartials, 'partial');
  return `${countOf(formPartials, 'partial')} hold ${countOf(cycles, 'cycle')} of ${cycle}; ${left} ${remainingPartials > 1 ? 'are' : 'is'} left over.`;
}

/** Where a form can resolve, by beat: 1 is the downbeat after it. */
export const resolveWords = (beat: number): string =>
  beat === 1 ? 'the downbeat after the last bar' : `beat ${beat} of the last bar`;

/** At what tempo a fitted phrase is heard and used when it is not the phrase's own. */
export const formTempoWords = ({ tempoBpm, meter }: Phrase, bpm: number): string =>
  `Heard and used at ${tempoText(bpm, meter)}; the phrase itself is at ${tempoText(tempoBpm, meter)}.`;

const SHORT: Readonly<Record<Fit['kind'], string>> = {
  'as it is': '',
  'cut the last cycle': ', last cycle cut',
  'rest first': ', rest first',
  'start displaced': ', started inside',
  'add a tail': ', with a tail',
};

/**
 * A title of its own for a phrase that was fitted to a form.
 *
 * @example fittedTitle('Slip', { kind: 'add a tail', bars: 4 }, []) // => 'Slip in 4 bars, with a tail'
 */
export const fittedTitle = (
  title: string,
  { kind, bars }: { readonly kind: Fit['kind']; readonly bars: number },
  taken: readonly string[],
): string =>
  freeTitle(
    title,
    (number) => ` in ${countOf(bars, 'bar')}${SHORT[kind]}${number === 1 ? '' : `, ${number}`}`,
    taken,
  );

/** The bars of a fitted phrase that show how it comes out: the first, and the last with what follows. */
export interface ShownBars {
  readonly name: string;
  /** Partials from bar 1 beat 1. */
  readonly from: number;
  readonly partials: number;
}

/** The last bar of a form, with the downbeat after it where that is what it resolves on, and the first bar ahead of it. */
export function shownBars(bars: number, barPartials: number, beat: number): readonly ShownBars[] {
  const last: ShownBars = {
    name: `Bar ${bars}${beat === 1 ? ' and the downbeat after it' : ''}`,
    from: (bars - 1) * barPartials,
    partials: barPartials + (beat === 1 ? 1 : 0),
  };
  return bars === 1 ? [last] : [{ name: 'Bar 1', from: 0, partials: barPartials }, last];
}

/** What sounds in a stretch of a fitted phrase, for those who cannot see it. */
export function stickingWords(
  partials: readonly { readonly strokes: readonly { readonly sticking: string }[] }[],
): string {
  return partials
    .map(({ strokes }) => strokes.map(({ sticking }) => sticking).join('+') || '-')
    .join(' ');
}

/** Where the left-over partials come to lie, from one up to before another; undefined when there are none. */
export function leftOverSpan(
  kind: Fit['kind'],
  { formPartials, remainingPartials }: LeftOver,
): readonly [number, number] | undefined {
  if (remainingPartials === 0) return undefined;
  return kind === 'rest first' || kind === 'start displaced'
    ? [0, remainingPartials]
    : [formPartials - remainingPartials, formPartials];
}

/** The names of the layers that a fitted phrase has beyond one (1-based). */
export const layersAdded = (phrase: Phrase, layer: number): readonly string[] =>
  phrase.layers.slice(layer).map(({ name }) => name);
