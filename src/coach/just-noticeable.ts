/**
 * Smallest displacement of one stroke in an even stream that listeners notice, ms: 6 ms when strokes
 * are closer than 240 ms, 2.5 % of their interval above; musical training made no difference.
 * Friberg & Sundberg 1995, JASA 98:2524-2531. Differences below it are not told.
 *
 * @param intervalMs time between successive strokes
 * @example justNoticeableMs(500) // => 12.5
 */
export const justNoticeableMs = (intervalMs: number): number =>
  intervalMs < 240 ? 6 : 0.025 * intervalMs;
