import type { Stroke } from '../kit/stroke';

/** A stroke as capture hears it: what was struck, when and how hard. */
export type PlayedStroke = Pick<Stroke, 'timeUs' | 'voice' | 'velocity'>;

/** A stroke with its place among the beats of the take, bar 1 beat 1 at 0, as a real number. */
export interface StrokeInBeats extends PlayedStroke {
  readonly beat: number;
}
