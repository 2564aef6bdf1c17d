import { decompose } from '../../../src/phrase/decompose/decompose';
import {
  targetPattern,
  type PatternError,
  type PatternNote,
  type TargetPattern,
} from '../../../src/phrase/decompose/target-pattern';
import { startingVoice } from '../../../src/phrase/layers/layer-stroke';
import { expand } from '../../../src/phrase/layers/expand';
import type { Limb } from '../../../src/phrase/model/limb';
import type { Phrase } from '../../../src/phrase/model/phrase';
import type { Result } from '../../../src/time/result';

/** The value of an answer that must be there. */
export function valueOf<T>(answer: Result<T, Pick<PatternError, 'message'>>): T {
  if (!answer.ok) throw new Error(answer.errors.map((error) => error.message).join('\n'));
  return answer.value;
}

/** A phrase's last layer as a pattern. */
export const patternOf = (phrase: Phrase): TargetPattern =>
  valueOf(targetPattern(phrase, phrase.layers.length));

export const takenApart = (pattern: TargetPattern): Phrase =>
  valueOf(decompose(pattern, 'Taken apart'));

/** What is heard at a layer, in any order within an onset: neither cycles nor layers, which may be found otherwise. */
export const heard = (phrase: Phrase, layer: number, bars: number): string[] =>
  expand(phrase, layer, { bars })
    .map(({ onset, bar, beat, limb, voice, level, graceStep }) =>
      [onset.toFraction(), bar, beat.toFraction(), limb, voice, level, graceStep].join(' '),
    )
    .sort();

/** A pattern of sixteenths in 4/4 from a sticking with an `>` behind what is accented. */
export function patternFrom(sticking: string, rest: Partial<TargetPattern> = {}): TargetPattern {
  const steps = sticking.split(' ');
  const notes = steps.flatMap((step, partial): PatternNote[] => {
    if (step === '-') return [];
    const limb = step[0] as Limb;
    const level = step.endsWith('>') ? 'accent' : 'tap';
    return [{ partial, limb, voice: startingVoice(limb), level, graces: [] }];
  });
  return {
    meter: '4/4',
    subdivision: 4,
    cyclePartials: steps.length,
    tempoBpm: 90,
    notes,
    pickup: [],
    ...rest,
  };
}
