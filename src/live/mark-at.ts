import { firstFrom } from '../time/first-from';
import type { LaneMark } from './lane-feed';

/** The last mark at or before a time, integer microseconds from bar 1 beat 1; undefined ahead of the first. */
export const markAt = (marks: readonly LaneMark[], atUs: number): LaneMark | undefined =>
  marks[firstFrom(marks, ({ timeUs }) => timeUs, atUs + 1) - 1];
