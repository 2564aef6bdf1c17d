import { displacement, withCutCycle, withTail } from './form-cycle';
import { gridAt } from '../model/grid';
import { checkDraft } from '../check/draft-check';
import type { Phrase } from '../model/phrase';
import { draftOf, type PhraseDraft } from '../model/phrase-draft';
import { MAX_CYCLE, TEMPO_BPM } from '../model/phrase-file';
import { playability } from '../playability/playability';
import { bad, good, type Result } from '../../time/result';
import { countOf } from '../../words/words';

/** How a phrase is made to come out. */
export type FitKind =
  'as it is' | 'cut the last cycle' | 'rest first' | 'start displaced' | 'add a tail';

/** A way to make a phrase resolve where it should. */
export interface Fit {
  readonly kind: FitKind;
  readonly sentence: string;
  /** With one more layer where something changes; it can be practised as it is. */
  readonly phrase: Phrase;
}

/** A way that is not open, and why. */
export interface NoFit {
  readonly kind: FitKind;
  readonly reason: string;
  /** The fastest whole tempo at which it is open, beats a minute; undefined when the tempo is not what stands in the way. */
  readonly openUpToBpm: number | undefined;
}

/** What is left over when whole cycles are laid into a form. */
export interface LeftOver {
  /** Partials from bar 1 beat 1 to the point where the phrase is to resolve. */
  readonly formPartials: number;
  /** Whole cycles that fit in. */
  readonly cycles: number;
  /** Partials that are left over then: the remainder of the division. */
  readonly remainingPartials: number;
}

/** Where a phrase meets the end of a form. */
export interface FormFit extends LeftOver {
  /** Those that can be played at the phrase's tempo. */
  readonly fits: readonly Fit[];
  /** The other ways. */
  readonly refused: readonly NoFit[];
}

/** The most bars in a form. */
export const MOST_FORM_BARS = 32;

/**
 * How a layer (1-based) goes into a form of 1 to 32 bars that it is to resolve at the end of: beat 1 (1-based) is the
 * downbeat after the last bar, any other beat lies in the last bar. Displacements are taken back.
 *
 * @throws RangeError when the phrase has no such layer, or the form no such bars or beat.
 * @example leftOver(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1, 2) // => { formPartials: 32, cycles: 10, remainingPartials: 2 }
 */
export function leftOver(phrase: Phrase, layer: number, bars: number, beat = 1): LeftOver {
  const { barPartials, subdivision } = gridAt(phrase, layer);
  if (!Number.isInteger(bars) || bars < 1 || bars > MOST_FORM_BARS)
    throw new RangeError(`a form has 1 to ${MOST_FORM_BARS} bars, got ${bars}`);
  if (!Number.isInteger(beat) || beat < 1 || beat > phrase.meter.beatsPerBar)
    throw new RangeError(`the bar has beats 1 to ${phrase.meter.beatsPerBar}, got ${beat}`);
  const formPartials =
    beat === 1 ? bars * barPartials : (bars - 1) * barPartials + (beat - 1) * subdivision;
  const remainingPartials = formPartials % phrase.cycle;
  return {
    formPartials,
    cycles: (formPartials - remainingPartials) / phrase.cycle,
    remainingPartials,
  };
}

/**
 * Every way to make a layer (1-based) of a phrase resolve on a beat (1-based) of a form, so that a cycle ends there
 * and the next would begin; see leftOver for the beats. When whole cycles leave partials over, the last cycle is cut,
 * the phrase rests first, it starts inside its cycle, or a tail of single strokes hand to hand fills up. Each way is
 * one more layer. For cut and tail the cycle is written out over the form and starts over with it (not beyond 512
 * partials, the most of a cycle; after an inner beat the form rests but for the stroke it resolves on); the other two
 * go on. Displacements before are taken back.
 *
 * @throws RangeError when the phrase has no such layer, or the form no such bars or beat.
 * @example fitForm(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1, 4).fits.map(({ kind }) => kind) // => ['cut the last cycle', 'rest first', 'start displaced', 'add a tail']
 */
export function fitForm(phrase: Phrase, layer: number, bars: number, beat = 1): FormFit {
  const left = leftOver(phrase, layer, bars, beat);
  const { formPartials: end, cycles, remainingPartials: rest } = left;
  const { barPartials, displace } = gridAt(phrase, layer);
  const { cycle } = phrase;
  const upTo = { ...phrase, layers: phrase.layers.slice(0, layer) };
  const place = { form: bars * barPartials, end, whole: end - rest, displace };
  const where = beat === 1 ? `after ${countOf(bars, 'bar')}` : `on beat ${beat} of bar ${bars}`;
  const fits: Fit[] = [];
  const refused: NoFit[] = [];
  const weigh = (kind: FitKind, sentence: string, draft: () => PhraseDraft, never?: string) => {
    const found = never === undefined ? playable(draft()) : bad({ reason: never });
    if (found.ok) fits.push({ kind, sentence, phrase: found.value });
    else refused.push({ kind, openUpToBpm: undefined, ...found.errors[0]! });
  };
  const startAt = (start: number, name: string) => () =>
    withStart(draftOf(upTo), name, start - displace);
  const already = (start: number) => (start === displace ? ' It does so already.' : '');
  const hasPickup = upTo.layers.some(({ changes }) =>
    changes.some(({ kind }) => kind === 'pickup'),
  );
  const pickupStays = hasPickup ? ' Its pickup stays ahead of bar 1.' : '';
  const takenBack = displace === 0 ? '' : ' Its displacement is taken back.';
  if (rest === 0) {
    const sentence =
      displace === 0
        ? `Whole cycles end ${where}; nothing needs to change.`
        : `Whole cycles from the downbeat end ${where}; only the displacement is taken back.`;
    weigh('as it is', sentence, startAt(0, 'From the downbeat'));
    return { ...left, fits, refused };
  }
  const tooLong =
    place.form > MAX_CYCLE
      ? `The form has ${place.form} partials, and a cycle that is written out has at most ${MAX_CYCLE}; choose fewer bars.`
      : undefined;
  const tooShort =
    cycles === 0
      ? `No whole cycle fits into ${countOf(end, 'partial')}; choose more bars.`
      : undefined;
  weigh(
    'cut the last cycle',
    `The last cycle is cut after ${countOf(rest, 'partial')}, so that it resolves ${where}.${takenBack}`,
    () => withCutCycle(upTo, place),
    tooLong,
  );
  weigh(
    'rest first',
    `The phrase rests for ${countOf(rest, 'partial')} first, so that a cycle ends ${where}.${already(rest)}${pickupStays}`,
    startAt(rest, 'Rest first'),
    tooShort,
  );
  weigh(
    'start displaced',
    `The phrase starts ${countOf(cycle - rest, 'partial')} into its cycle, so that a cycle ends ${where}.${already(rest - cycle)}`,
    startAt(rest - cycle, 'Start inside the cycle'),
  );
  weigh(
    'add a tail',
    `After the last whole cycle a tail of ${countOf(rest, 'stroke')} hand to hand leads to where it resolves, ${where}.${takenBack}`,
    () => withTail(upTo, place),
    tooShort ?? tooLong,
  );
  return { ...left, fits, refused };
}

interface Refusal {
  readonly reason: string;
  readonly openUpToBpm?: number | undefined;
}

/** The phrase of a draft, or why it cannot be used. */
function playable(draft: PhraseDraft): Result<Phrase, Refusal> {
  const checked = checkDraft(draft);
  if (!checked.ok)
    return bad({ reason: `It does not suit this phrase: ${checked.errors[0]!.message}` });
  const { tempoBpm, layers } = checked.value;
  const { problems, playableUpToBpm } = playability(checked.value, layers.length, tempoBpm);
  const problem = problems[0];
  if (!problem) return good(checked.value);
  const openUpToBpm = Math.floor(playableUpToBpm);
  return bad({
    reason: `It cannot be played at ${tempoBpm} bpm. ${problem.sentence}`,
    openUpToBpm: openUpToBpm >= TEMPO_BPM.least ? openUpToBpm : undefined,
  });
}

const withStart = (draft: PhraseDraft, name: string, by: number): PhraseDraft =>
  by === 0 ? draft : { ...draft, layers: [...draft.layers, { name, changes: displacement(by) }] };
