import { clickPattern, type ClickChoice } from '../sound/click-pattern';
import { sessionSounds, type ReferenceMode } from '../sound/session-sounds';
import type { SoundEvent } from '../sound/sound-event';
import { between } from './between';
import type { LiveTimeline } from '../live/live-timeline';

/** What a timeline sounds like from `fromUs` up to but not including `toUs`, in time order: click and voices. */
export function soundsBetween(
  { marks, cycles, notes }: LiveTimeline,
  click: ClickChoice,
  reference: ReferenceMode,
  fromUs: number,
  toUs: number,
): readonly SoundEvent[] {
  const clicks = clickPattern(
    click,
    between(marks, ({ timeUs }) => timeUs, fromUs, toUs)
      .filter(({ kind }) => kind !== 'partial')
      .map(({ timeUs, label }) => ({ timeUs, beat: Number(label) })),
    between(cycles, ({ startUs }) => startUs, fromUs, toUs).map(({ startUs }) => startUs),
  );
  const voices = between(notes, ({ timeUs }) => timeUs, fromUs, toUs).map(({ timeUs, note }) => ({
    timeUs,
    voice: note.voice,
    level: note.level,
  }));
  return sessionSounds(reference, clicks, voices);
}
