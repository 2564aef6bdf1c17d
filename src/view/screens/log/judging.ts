import type { Take } from '../../../take/take';

/** What a take is judged by in place of its own. */
export type Judging = Partial<Pick<Take, 'kit' | 'toleranceMs' | 'reachMs'>>;
