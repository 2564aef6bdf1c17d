import type { LevelStrokes } from '../../../../kit/learn/learn-levels';
import type { Level } from '../../../../phrase/model/level';

export interface CurvePoint {
  readonly velocity: number;
  /** What the player meant it to be, where that was asked. */
  readonly meant: Level | undefined;
}

const softFirst = (a: CurvePoint, b: CurvePoint): number => a.velocity - b.velocity;

/** Strokes that were asked for, softest first. @example pointsOfLevels({ ghosts: [20], taps: [], accents: [9] })[0] // => { velocity: 9, meant: 'accent' } */
export const pointsOfLevels = ({ ghosts, taps, accents }: LevelStrokes): CurvePoint[] =>
  [
    ...ghosts.map((velocity): CurvePoint => ({ velocity, meant: 'ghost' })),
    ...taps.map((velocity): CurvePoint => ({ velocity, meant: 'tap' })),
    ...accents.map((velocity): CurvePoint => ({ velocity, meant: 'accent' })),
  ].sort(softFirst);

/** Strokes that were just played, softest first. @example pointsOf([9, 3])[0] // => { velocity: 3, meant: undefined } */
export const pointsOf = (velocities: readonly number[]): CurvePoint[] =>
  velocities.map((velocity): CurvePoint => ({ velocity, meant: undefined })).sort(softFirst);
