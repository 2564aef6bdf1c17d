import { clickPattern, type ClickChoice } from '../sound/click-pattern';
import { sessionSounds, type ReferenceMode } from '../sound/session-sounds';
import type { SoundEvent } from '../sound/sound-event';
import type { LaneMark } from '../live/lane-feed';
import type { LiveTimeline } from '../live/live-timeline';
import { markAt } from '../live/mark-at';
import type { TimedNote } from '../match/timed-note';
import { between } from '../time/first-from';

/** What a timeline sounds like from `fromUs` up to but not including `toUs`, in time order: click, accompaniment and voices. */
export function soundsBetween(
  { marks, cycles, notes, accompaniment, plan }: LiveTimeline,
  click: ClickChoice,
  reference: ReferenceMode,
  fromUs: number,
  toUs: number,
): readonly SoundEvent[] {
  const clicks = clickPattern(
    click,
    between(marks, ({ timeUs }) => timeUs, fromUs, toUs)
      .filter(({ kind }) => kind !== 'partial')
      .map(({ timeUs, label, isCountIn }) => ({ timeUs, beat: Number(label), isCountIn })),
    between(cycles, ({ startUs }) => startUs, fromUs, toUs)
      .map(({ startUs }) => startUs)
      .filter((startUs) => !markAt(marks, startUs)?.isCountIn),
  );
  const voices = (list: readonly TimedNote[]) =>
    between(list, ({ timeUs }) => timeUs, fromUs, toUs).map(({ timeUs, note }) => ({
      timeUs,
      voice: note.voice,
      level: note.level,
    }));
  const sounds = sessionSounds(reference, clicks, voices(notes), voices(accompaniment));
  return plan.silentBars ? sounds.filter(({ timeUs }) => !isSilentAt(marks, timeUs)) : sounds;
}

/** Whether the bar at a time, integer microseconds from bar 1 beat 1, has no click. */
export const isSilentAt = (marks: readonly LaneMark[], atUs: number): boolean =>
  markAt(marks, atUs)?.isSilent ?? false;
