import type { ClickSound } from './sound-event';

/** What the click follows. With `cycle` only cycle starts sound, and the choice of beats says nothing. */
export const CLICK_FOLLOWS = ['meter', 'cycle', 'both'] as const;
/** Which beats of the meter sound. `2 and 4` means the even beats, in any meter. */
export const CLICK_BEATS = ['all', '2 and 4', 'first of the bar', 'none'] as const;

export interface ClickChoice {
  readonly follows: (typeof CLICK_FOLLOWS)[number];
  readonly beats: (typeof CLICK_BEATS)[number];
}

/** A beat of the meter; in the count-in its time is negative. */
export interface BeatMark {
  /** Integer microseconds from bar 1 beat 1. */
  readonly timeUs: number;
  /** 1-based beat of its bar, as the meter is felt. */
  readonly beat: number;
  /** Whether it counts in though bar 1 is past. */
  readonly isCountIn?: boolean | undefined;
}

export interface Click {
  readonly timeUs: number;
  readonly sound: ClickSound;
}

const sounds = (beat: number, beats: ClickChoice['beats']): boolean =>
  beats === 'all' ||
  (beats === '2 and 4' && beat % 2 === 0) ||
  (beats === 'first of the bar' && beat === 1);

/**
 * The clicks of a stretch, in time order. Before time 0 is the count-in, and later where a beat says so: every beat sounds
 * there and no cycle. Where a cycle starts on a beat that sounds, both sound, the beat first.
 *
 * @param marks beats of the meter in time order.
 * @param cycleStartsUs integer microseconds, ascending.
 * @example clickPattern({ follows: 'both', beats: '2 and 4' }, [{ timeUs: 0, beat: 1 }, { timeUs: 500000, beat: 2 }], [0]) // => [{ timeUs: 0, sound: 'cycle' }, { timeUs: 500000, sound: 'beat' }]
 */
export function clickPattern(
  choice: ClickChoice,
  marks: readonly BeatMark[],
  cycleStartsUs: readonly number[],
): Click[] {
  const meter = marks
    .filter(
      ({ timeUs, beat, isCountIn }) =>
        timeUs < 0 || isCountIn || (choice.follows !== 'cycle' && sounds(beat, choice.beats)),
    )
    .map(({ timeUs, beat }): Click => ({ timeUs, sound: beat === 1 ? 'bar' : 'beat' }));
  const cycles =
    choice.follows === 'meter'
      ? []
      : cycleStartsUs
          .filter((timeUs) => timeUs >= 0)
          .map((timeUs): Click => ({ timeUs, sound: 'cycle' }));
  return [...meter, ...cycles].sort((a, b) => a.timeUs - b.timeUs);
}
