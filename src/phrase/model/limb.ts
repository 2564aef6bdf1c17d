/** Right hand, left hand, right foot (bass drum), left foot (hi-hat pedal), as printed stickings write them. */
export const LIMBS = ['R', 'L', 'K', 'F'] as const;
export type Limb = (typeof LIMBS)[number];

export type Hand = Extract<Limb, 'R' | 'L'>;

/** @example isHand('K') // => false */
export const isHand = (limb: Limb): limb is Hand => limb === 'R' || limb === 'L';

/** The hand that is free while a limb strikes; while a foot does, the right one is taken. @example freeHand('R') // => 'L' */
export const freeHand = (limb: Limb): Hand => (limb === 'R' ? 'L' : 'R');

/** The limb where the hands have changed places; feet stay. @example inOtherHand('K') // => 'K' */
export const inOtherHand = (limb: Limb): Limb => (isHand(limb) ? freeHand(limb) : limb);

/** The limb's name in a sentence. @example limbName('L') // => 'left hand' */
export const limbName = (limb: Limb): string =>
  ({ R: 'right hand', L: 'left hand', K: 'right foot', F: 'left foot' })[limb];
