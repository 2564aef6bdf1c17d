import { LIMBS, type Limb } from '../../phrase/model/limb';

/** A stroke as a row of stickings has it. */
export interface StickingStroke {
  readonly limb: Limb;
  /** Hands of the grace notes ahead, first to sound first. */
  readonly graces: readonly Limb[];
}

/**
 * Reads what stands under a note: limbs, joined by "+", each with its grace notes small ahead of it. A single letter may be small.
 * Undefined where it is anything else, such as a count.
 *
 * @example readSticking('lR+K') // => [{ limb: 'R', graces: ['L'] }, { limb: 'K', graces: [] }]
 */
export function readSticking(text: string): readonly StickingStroke[] | undefined {
  const strokes: StickingStroke[] = [];
  for (const word of text.trim().split('+')) {
    const match = /^([rl]{0,2})([RLKF])$/.exec(/^[rl]$/.test(word) ? word.toUpperCase() : word);
    if (!match) return undefined;
    const graces = [...match[1]!].map((letter) => letter.toUpperCase() as Limb);
    strokes.push({ limb: match[2] as Limb, graces });
  }
  return new Set(strokes.map(({ limb }) => limb)).size === strokes.length ? strokes : undefined;
}

/** @example readLimb('R') // => 'R' */
export const readLimb = (text: string | undefined): Limb | undefined =>
  LIMBS.find((limb) => limb === text);
