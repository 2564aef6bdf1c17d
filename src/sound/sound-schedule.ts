import type { ClockMap } from '../clock/audio-clock-map';
import type { SoundEvent } from './sound-event';
import type { QueuedSound, SoundOutput } from './sound-output';

/** Chosen, not measured: more than a second, so that a main thread blocked for half of one makes nothing late. */
export const LEAD_SECONDS = 1.5;
/** Chosen, not measured: a sound this near may already be in the block being rendered; it is left to sound. */
const TOO_NEAR_SECONDS = 0.02;
/** Chosen, not measured: queued sounds are placed anew when the clock map has moved this far under them. */
const MOVED_SECONDS = 0.005;

export interface SoundScheduleInput {
  readonly clockMap: ClockMap;
  readonly engine: SoundOutput;
  /** Performance time, ms, at which bar 1 beat 1 is heard. */
  readonly originPerformanceMs: number;
  /** Where sounding begins, integer microseconds from bar 1 beat 1: the count-in's first beat. */
  readonly fromUs: number;
  /** What sounds from `fromUs` up to but not including `toUs`, in time order. Asked again after a cancel. */
  readonly events: (fromUs: number, toUs: number) => readonly SoundEvent[];
}

export interface SoundSchedule {
  /**
   * Queues what sounds before `untilUs` and within the lead, each event once. Call it from the pump,
   * after the clock map has observed. An event whose time is past is dropped and counted.
   */
  fill(untilUs?: number): void;
  /** Silences what is queued from `timeUs` on and not yet sounding; the next fill asks for it again. */
  cancelFrom(timeUs: number): void;
  /** Silences everything at once, for good. */
  stop(): void;
  /** Events that were past before they could be queued. */
  readonly droppedCount: number;
  /** Everything before this is queued or past, integer microseconds. */
  readonly filledUs: number;
}

interface Waiting {
  readonly event: SoundEvent;
  readonly atSeconds: number;
  readonly sound: QueuedSound;
}

/** Places events of a session on the audio clock, `LEAD_SECONDS` ahead of their time. */
export function createSoundSchedule(input: SoundScheduleInput): SoundSchedule {
  const { clockMap, engine, originPerformanceMs, events } = input;
  const queue = engine.openQueue();
  let waiting: Waiting[] = [];
  let filledUs = input.fromUs;
  /** Everything before this has sounded or was dropped, and is never asked for again. */
  let doneUs = input.fromUs;
  let droppedCount = 0;
  let stopped = false;

  const secondsAt = (timeUs: number) =>
    clockMap.audioSecondsAt(originPerformanceMs + timeUs / 1000);
  const isDone = ({ atSeconds }: Waiting) => atSeconds < engine.currentSeconds + TOO_NEAR_SECONDS;
  const settle = () => {
    const done = waiting.filter(isDone);
    if (done.length === 0) return;
    waiting = waiting.filter((item) => !done.includes(item));
    doneUs = Math.max(doneUs, ...done.map(({ event }) => event.timeUs + 1));
  };
  const cancelFrom = (timeUs: number) => {
    settle();
    for (const { event, sound } of waiting) if (event.timeUs >= timeUs) sound.cancel();
    waiting = waiting.filter(({ event }) => event.timeUs < timeUs);
    filledUs = Math.min(filledUs, Math.max(timeUs, doneUs));
  };
  const clocksMoved = () => {
    const last = waiting.at(-1);
    const seconds = last && secondsAt(last.event.timeUs);
    return seconds !== undefined && Math.abs(seconds - last!.atSeconds) > MOVED_SECONDS;
  };

  return {
    fill(untilUs = Infinity) {
      if (stopped || !engine.running) return;
      const horizonMs = clockMap.performanceMsAt(engine.currentSeconds + LEAD_SECONDS);
      if (horizonMs === undefined) return;
      settle();
      if (clocksMoved()) cancelFrom(doneUs);
      const toUs = Math.min(untilUs, Math.floor((horizonMs - originPerformanceMs) * 1000));
      if (toUs <= filledUs) return;
      for (const event of events(filledUs, toUs)) {
        const atSeconds = secondsAt(event.timeUs)!;
        if (atSeconds < engine.currentSeconds) {
          droppedCount++;
          doneUs = Math.max(doneUs, event.timeUs + 1);
        } else waiting.push({ event, atSeconds, sound: queue.play(event, atSeconds) });
      }
      filledUs = toUs;
    },
    cancelFrom,
    stop() {
      stopped = true;
      waiting = [];
      queue.close();
    },
    get droppedCount() {
      return droppedCount;
    },
    get filledUs() {
      return filledUs;
    },
  };
}
