import { bad, good, type Result } from '../../time/result';
import { isHand, limbName, type Limb } from '../model/limb';
import type { RootStep, RootStroke } from '../model/phrase';
import { phraseError, type PhraseError } from '../model/phrase-error';

/**
 * A grouping from text: one step per partial, steps set apart by spaces. `R` `L` hands, `K` right
 * foot, `F` left foot, `-` rest, `R+K` unison, `lR` flam and `llR` drag with the grace notes played by
 * the hand of the small letter. An error's place gives the step, from 0.
 *
 * @example parseGrouping('llR - L+K') // => { ok: true, value: [[{ limb: 'R', graces: ['L', 'L'] }], [], [{ limb: 'L', graces: [] }, { limb: 'K', graces: [] }]] }
 */
export function parseGrouping(text: string): Result<readonly RootStep[], PhraseError> {
  const tokens = text.split(/\s+/).filter((token) => token !== '');
  const steps: RootStep[] = [];
  const errors: PhraseError[] = [];
  tokens.forEach((token, i) => {
    const place = `grouping[${i}]`;
    const step = parseStep(token);
    if (!step) {
      errors.push(
        phraseError('GROUPING_TOKEN', place, {
          found: token.slice(0, 20),
          number: i + 1,
          remedy: remedyOf(token),
        }),
      );
      return;
    }
    const limbs = step.map((stroke) => stroke.limb);
    const twice = limbs.find((limb, at) => limbs.indexOf(limb) !== at);
    const where = `step ${i + 1} of the grouping`;
    if (twice) errors.push(phraseError('LIMB_TWICE', place, { limb: limbName(twice), where }));
    if (step.some((stroke) => stroke.graces.length > 0 && !isHand(stroke.limb)))
      errors.push(phraseError('GRACE_ON_FOOT', place, { where }));
    steps.push(step);
  });
  return errors.length > 0 ? bad(...errors) : good(steps);
}

function parseStep(token: string): RootStep | undefined {
  if (token === '-') return [];
  const strokes: RootStroke[] = [];
  for (const part of token.split('+')) {
    const match = /^([rl]{0,2})([RLKF])$/.exec(part);
    if (!match) return undefined;
    strokes.push({
      limb: match[2] as Limb,
      graces: [...match[1]!.toUpperCase()] as Limb[],
    });
  }
  return strokes;
}

const STEPS = /[rl]{0,2}[RLKF](?:\+[rl]{0,2}[RLKF])*|-/g;
/** Longest word that is written out in a message, letters. Chosen, not measured: two bars of sixteenths. */
const MOST_LETTERS = 32;

/**
 * A grouping with strokes that were run together set apart, and in capitals where they have none at all; whatever
 * cannot be read so stays as it is.
 *
 * @example mendedGrouping('RLlR k') // => 'R L lR K'
 */
export const mendedGrouping = (text: string): string => text.replace(/\S+/g, mendedToken);

const mendedToken = (token: string): string =>
  steps(token) ?? (token === token.toLowerCase() ? steps(token.toUpperCase()) : undefined) ?? token;

/** The steps of a word with spaces between; undefined where it is made of anything else. */
function steps(token: string): string | undefined {
  const found = token.match(STEPS) ?? [];
  return found.join('') === token ? found.join(' ') : undefined;
}

/** What is wrong with a step that is none, and what to do. */
function remedyOf(token: string): string {
  const mended = token.length > MOST_LETTERS ? token : mendedToken(token);
  if (mended.includes(' ')) return `is several strokes; put spaces between them: ${mended}`;
  if (mended !== token)
    return `has no capital letter; write ${mended} for the stroke, since small letters are grace notes ahead of one`;
  return 'is not a stroke; write R or L for a hand, K for the bass drum, F for the hi-hat foot, - for a rest, R+K for two at once, lR for a flam, llR for a drag';
}
