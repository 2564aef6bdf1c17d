import { linearRegression, mean, rSquared, sum } from 'simple-statistics';
import { tTwoSided } from '../../score/statistics/student-t';
import { FEWEST_UNITS } from '../evidence/units';
import type { CoursePoint } from './course';

/** A course that leaves the click and does not come back. */
export interface Departure {
  readonly kind: 'other tempo' | 'drift';
  /** Played over written length of a beat, less one, over the whole: positive is slower. */
  readonly slope: number;
  /** From the first to the last unit, microseconds; early is negative. */
  readonly totalUs: number;
  /** Whether it grows faster and faster. */
  readonly isGrowing: boolean;
  /** How much later than written something is played, microseconds. */
  readonly shiftAt: (timeUs: number) => number;
}

/** Another tempo differs by 1 % and one beat a minute, give or take what a take of eight bars can tell; less is rushing or dragging. Chosen, not measured. */
const OTHER_TEMPO = 0.009;
const OTHER_BPM = 0.9;
/** Another tempo leaves so fast that few points show it; a drift needs as many as all else about time. Chosen, not measured. */
const FEWEST_POINTS = 4;
/** Share of the course that a straight line has to explain for one to be told at all. Chosen, not measured: a wander comes back. */
const STRAIGHT = 0.6;
const STEADY = 0.97;
/** The second half leaves so many times as fast as the first where the tempo itself changes. Chosen, not measured. */
const GROWING = 2;
/** A drift has to add up to so many just noticeable differences. Chosen, not measured. */
const NOTICEABLE = 2;

/**
 * Whether a course leaves the click: a line through its points (least squares), whose slope a t test finds sure and which
 * explains most of the course. Undefined where it does not.
 *
 * @param bpm the click's
 * @param level how often a course that does not leave may be found to, 0 to 1
 */
export function departureOf(
  course: readonly CoursePoint[],
  bpm: number,
  noticeableMs: number,
  level: number,
): Departure | undefined {
  if (course.length < FEWEST_POINTS) return undefined;
  const { m: slope, straight, p } = lineOfCourse(course);
  const [first, last] = [course[0]!, course.at(-1)!];
  const totalUs = slope * (last.timeUs - first.timeUs);
  if (!(p < level) || straight < STRAIGHT) return undefined;
  if (Math.abs(totalUs) <= NOTICEABLE * noticeableMs * 1000) return undefined;
  const isOther =
    Math.abs(slope) >= OTHER_TEMPO &&
    Math.abs(bpm / (1 + slope) - bpm) >= OTHER_BPM &&
    straight >= STEADY;
  if (!isOther && course.length < FEWEST_UNITS) return undefined;
  const half = Math.ceil(course.length / 2);
  const [early, late] = [course.slice(0, half + 1), course.slice(half)].map(
    (part) => lineOfCourse(part).m,
  );
  const isGrowing = late! * slope > 0 && Math.abs(late!) >= GROWING * Math.abs(early!);
  return {
    kind: isOther && !isGrowing ? 'other tempo' : 'drift',
    slope,
    totalUs,
    isGrowing,
    shiftAt: isOther && !isGrowing ? lineThrough(course, slope) : smooth(course),
  };
}

/** The line through a course (least squares): its slope and the slope's error, how much of the course it explains, and how sure the slope is. */
export function lineOfCourse(course: readonly CoursePoint[]) {
  const points = course.map(({ timeUs, shiftUs }): [number, number] => [timeUs, shiftUs]);
  const fit = linearRegression(points);
  const at = (timeUs: number) => fit.m * timeUs + fit.b;
  const middle = mean(points.map(([timeUs]) => timeUs));
  const left = sum(points.map(([timeUs, shiftUs]) => (shiftUs - at(timeUs)) ** 2));
  const width = sum(points.map(([timeUs]) => (timeUs - middle) ** 2));
  const df = points.length - 2;
  const error = df > 0 ? Math.sqrt(left / df / width) : Infinity;
  return {
    m: fit.m,
    error,
    df,
    straight: rSquared(points, at),
    p: df < 1 ? 1 : error === 0 ? 0 : tTwoSided(fit.m / error, df),
  };
}

function lineThrough(course: readonly CoursePoint[], slope: number): Departure['shiftAt'] {
  const middleUs = mean(course.map(({ timeUs }) => timeUs));
  const shiftUs = mean(course.map((point) => point.shiftUs));
  return (timeUs) => shiftUs + slope * (timeUs - middleUs);
}

/** Straight between the means of three neighbours, and on beyond the ends. */
function smooth(course: readonly CoursePoint[]): Departure['shiftAt'] {
  const knots = course.map(({ timeUs, shiftUs }, i) => {
    const [before, after] = [course[i - 1], course[i + 1]];
    return {
      timeUs,
      shiftUs: before && after ? mean([before.shiftUs, shiftUs, after.shiftUs]) : shiftUs,
    };
  });
  return (timeUs) => {
    const next = knots.findIndex((knot) => knot.timeUs > timeUs);
    const at = next < 0 ? knots.length - 1 : Math.max(1, next);
    const [a, b] = [knots[at - 1]!, knots[at]!];
    return a.shiftUs + ((timeUs - a.timeUs) * (b.shiftUs - a.shiftUs)) / (b.timeUs - a.timeUs);
  };
}
