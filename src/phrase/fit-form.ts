import { gridAt } from './grid';
import { isHand } from './limb';
import type { Phrase } from './phrase';
import { MAX_CYCLE, type AddedFile, type PhraseFile } from './phrase-file';
import { playability } from './playability/playability';
import { counted, varied, type Varied } from './vary/varied';
import { writeOut } from './vary/write-out';
import { phraseFile } from './write-phrase';

/** How a phrase is made to come out. */
export type FitKind =
  'as it is' | 'cut the last cycle' | 'rest first' | 'start displaced' | 'add a tail';

/** A way to make a phrase resolve where it should. */
export interface Fit {
  readonly kind: FitKind;
  readonly sentence: string;
  /** With one more layer, or its cycle written out over the form; it can be practised as it is. */
  readonly phrase: Phrase;
}

/** Where a phrase meets the end of a form. */
export interface FormFit {
  /** Partials from bar 1 beat 1 to the point where it is to resolve. */
  readonly formPartials: number;
  /** Whole cycles that fit in. */
  readonly cycles: number;
  /** Partials that are left over then: the remainder of the division. */
  readonly remainingPartials: number;
  /** Those that can be played at the phrase's tempo. */
  readonly fits: readonly Fit[];
}

/** The most bars in a form. */
export const MOST_FORM_BARS = 32;

/**
 * Every way to make a layer (1-based) of a phrase resolve on a beat (1-based) of a form of 1 to 32 bars, so that a
 * cycle ends there and the next would begin: beat 1 is the downbeat after the last bar, any other beat lies in the
 * last bar. When whole cycles leave partials over, the last cycle is cut, the phrase rests first, it starts inside
 * its cycle, or a tail of single strokes hand to hand fills up. Cut and tail are written out over the form and start
 * over with it (not beyond 512 partials, the most of a cycle; after an inner beat the form rests but for the stroke
 * it resolves on); the other two are one more layer and go on. Displacements before are taken back.
 *
 * @throws RangeError when the phrase has no such layer, or the form no such bars or beat.
 * @example fitForm(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1, 4).remainingPartials // => 1
 */
export function fitForm(phrase: Phrase, layer: number, bars: number, beat = 1): FormFit {
  const { barPartials, subdivision, displace } = gridAt(phrase, layer);
  if (!Number.isInteger(bars) || bars < 1 || bars > MOST_FORM_BARS)
    throw new RangeError(`a form has 1 to ${MOST_FORM_BARS} bars, got ${bars}`);
  if (!Number.isInteger(beat) || beat < 1 || beat > phrase.meter.beatsPerBar)
    throw new RangeError(`the bar has beats 1 to ${phrase.meter.beatsPerBar}, got ${beat}`);
  const form = bars * barPartials;
  const end = beat === 1 ? form : form - barPartials + (beat - 1) * subdivision;
  const { cycle } = phrase;
  const rest = end % cycle;
  const upTo = { ...phrase, layers: phrase.layers.slice(0, layer) };
  const at = (start: number) => withDisplacement(phraseFile(upTo), start - displace);
  const where = beat === 1 ? `after ${counted(bars, 'bar')}` : `on beat ${beat} of bar ${bars}`;
  const made: [FitKind, Varied | undefined][] = [];
  if (rest === 0)
    made.push(['as it is', varied(at(0), `Whole cycles end ${where}; nothing needs to change.`)]);
  else {
    made.push(
      [
        'cut the last cycle',
        writtenOut(
          upTo,
          { form, end, displace, played: end },
          `The last cycle is cut after ${counted(rest, 'partial')}, so that it resolves ${where}.`,
        ),
      ],
      [
        'rest first',
        end > cycle
          ? varied(
              at(rest),
              `The phrase rests for ${counted(rest, 'partial')} first, so that a cycle ends ${where}.`,
            )
          : undefined,
      ],
      [
        'start displaced',
        varied(
          at(rest - cycle),
          `The phrase starts ${counted(cycle - rest, 'partial')} into its cycle, so that a cycle ends ${where}.`,
        ),
      ],
      [
        'add a tail',
        end > cycle
          ? writtenOut(
              upTo,
              { form, end, displace, played: end - rest },
              `After the last whole cycle a tail of ${counted(rest, 'stroke')} hand to hand leads to where it resolves, ${where}.`,
            )
          : undefined,
      ],
    );
  }
  return {
    formPartials: end,
    cycles: Math.floor(end / cycle),
    remainingPartials: rest,
    fits: made.flatMap(([kind, found]) =>
      found && isPlayable(found.phrase) ? [{ kind, ...found }] : [],
    ),
  };
}

const isPlayable = (phrase: Phrase): boolean =>
  playability(phrase, phrase.layers.length, phrase.tempoBpm).problems.length === 0;

const withDisplacement = (file: PhraseFile, by: number): PhraseFile =>
  by === 0
    ? file
    : { ...file, layers: [...file.layers, { name: 'Fitted', changes: [{ displace: by }] }] };

interface FormPlace {
  readonly form: number;
  readonly end: number;
  /** Partials from the form's start that the phrase itself plays; a tail fills up to the end. */
  readonly played: number;
  readonly displace: number;
}

/** The phrase over a whole form. An inner end gets the first stroke of the cycle, and rests after it. */
function writtenOut(
  phrase: Phrase,
  { form, end, played, displace }: FormPlace,
  sentence: string,
): Varied | undefined {
  if (form > MAX_CYCLE) return undefined;
  const written = writeOut(phrase, form, (partial) =>
    partial < played ? partial % phrase.cycle : partial === end ? 0 : undefined,
  );
  const lastHand = phrase.grouping.flat().findLast(({ limb }) => isHand(limb))?.limb;
  const tail = Array.from({ length: end - played }, (_, i): AddedFile => {
    const isRight = (i % 2 === 0) === (lastHand !== 'R');
    return { position: played + i + 1, limb: isRight ? 'R' : 'L' };
  });
  const file = withDisplacement(written, -displace);
  if (tail.length === 0) return varied(file, sentence);
  return varied(
    { ...file, layers: [...file.layers, { name: 'Tail', changes: [{ add: tail }] }] },
    sentence,
  );
}
