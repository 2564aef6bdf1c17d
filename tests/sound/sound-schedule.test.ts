import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SoundEvent } from '../../src/sound/sound-event';
import { createSoundSchedule, LEAD_SECONDS } from '../../src/sound/sound-schedule';
import { beats } from '../../src/time/beats';
import { tempoMap } from '../../src/time/tempo';
import { exactMap, FakeOutput } from './fake-output';

const click = (timeUs: number): SoundEvent => ({
  kind: 'click',
  timeUs,
  sound: 'beat',
  velocity: 100,
});
const within = (times: readonly number[]) => (fromUs: number, toUs: number) =>
  times.filter((us) => us >= fromUs && us < toUs).map(click);
const every = (stepUs: number, untilUs: number, fromUs = 0) =>
  Array.from({ length: Math.ceil((untilUs - fromUs) / stepUs) }, (_, n) => fromUs + n * stepUs);

/** Audio time 0 is performance time 10 s; bar 1 beat 1 is heard one second later. */
const MAP_OFFSET_MS = -10_000;
const ORIGIN_MS = 11_000;

function rig(times: readonly number[], fromUs = 0) {
  const engine = new FakeOutput();
  const clockMap = exactMap(MAP_OFFSET_MS);
  const source = { times };
  const schedule = createSoundSchedule({
    clockMap,
    engine,
    originPerformanceMs: ORIGIN_MS,
    fromUs,
    events: (from, to) => within(source.times)(from, to),
  });
  const runTo = (seconds: number, stepSeconds = 0.1) => {
    while (engine.currentSeconds < seconds) {
      schedule.fill();
      engine.currentSeconds += stepSeconds;
    }
    schedule.fill();
  };
  return { engine, clockMap, schedule, source, runTo };
}

describe('the sound schedule', () => {
  it('queues each event once and in order, whatever the rhythm of the pump', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 8_000_000 }), { maxLength: 60 }),
        fc.array(fc.double({ min: 0.001, max: 1.4, noNaN: true }), { minLength: 1, maxLength: 20 }),
        (unsorted, steps) => {
          const times = unsorted.sort((a, b) => a - b);
          const { engine, schedule } = rig(times);
          for (let n = 0; engine.currentSeconds < 9; n++) {
            schedule.fill();
            engine.currentSeconds += steps[n % steps.length]!;
          }
          schedule.fill();
          expect(engine.heardUs).toEqual(times);
          expect(schedule.droppedCount).toBe(0);
        },
      ),
    );
  });

  it('queues nothing later than the lead and everything by then', () => {
    const { engine, runTo } = rig(every(50_000, 20_000_000));
    runTo(15);
    const leads = engine.sounds
      .filter(({ event }) => event.timeUs > 2_000_000)
      .map(({ atSeconds, queuedSeconds }) => atSeconds - queuedSeconds);
    expect(Math.max(...leads)).toBeLessThanOrEqual(LEAD_SECONDS + 1e-9);
    expect(Math.min(...leads)).toBeGreaterThan(1);
  });

  it('drops and counts what is past after the pump was held up, and sounds nothing in the past', () => {
    const times = every(100_000, 10_000_000);
    const { engine, schedule, runTo } = rig(times);
    runTo(3);
    engine.currentSeconds += 4;
    runTo(11);
    for (const { atSeconds, queuedSeconds } of engine.sounds)
      expect(atSeconds).toBeGreaterThanOrEqual(queuedSeconds);
    expect(schedule.droppedCount).toBeGreaterThan(20);
    expect(engine.heardUs.length + schedule.droppedCount).toBe(times.length);
  });

  it('stops asking at the time it is given', () => {
    const { engine, schedule } = rig(every(100_000, 5_000_000));
    for (engine.currentSeconds = 0; engine.currentSeconds < 6; engine.currentSeconds += 0.1)
      schedule.fill(1_000_000);
    expect(engine.heardUs).toEqual(every(100_000, 1_000_000));
    expect(schedule.filledUs).toBe(1_000_000);
  });

  it('replaces what is queued from a time on, and leaves what sounds or comes before', () => {
    const before = every(500_000, 10_000_000);
    const { engine, schedule, source, runTo } = rig(before);
    runTo(3.2);
    const after = [...every(500_000, 3_000_000), ...every(400_000, 6_000_000, 3_000_000)];
    source.times = after;
    schedule.cancelFrom(3_000_000);
    runTo(9);
    expect(engine.heardUs).toEqual(after);
    const silenced = engine.sounds.filter((s) => s.cancelled).map((s) => s.event.timeUs);
    expect(silenced).toEqual([3_000_000, 3_500_000]);
  });

  it('never sounds an event twice, even when told to cancel from long ago', () => {
    const times = every(130_000, 6_000_000);
    const { engine, schedule, runTo } = rig(times);
    for (let seconds = 1.05; seconds < 8; seconds += 0.37) {
      runTo(seconds);
      schedule.cancelFrom(0);
    }
    runTo(9);
    expect(engine.heardUs).toEqual(times);
    expect(schedule.droppedCount).toBe(0);
  });

  it('places queued sounds anew when the clocks move against each other', () => {
    const times = every(250_000, 8_000_000);
    const { engine, clockMap, runTo } = rig(times);
    runTo(3);
    clockMap.offsetMs += 30;
    runTo(9);
    expect(engine.heardUs).toEqual(times);
    const moved = engine.sounds.filter((s) => !s.cancelled && s.event.timeUs > 2_100_000);
    for (const { event, atSeconds } of moved)
      expect(atSeconds).toBeCloseTo(1.03 + event.timeUs / 1e6, 9);
  });

  it('waits while the engine is not running or the clocks are unknown', () => {
    const { engine, schedule } = rig(every(100_000, 1_000_000));
    engine.running = false;
    schedule.fill();
    expect(engine.sounds).toEqual([]);
    const unknown = new FakeOutput();
    createSoundSchedule({
      clockMap: {
        ...exactMap(0),
        audioSecondsAt: () => undefined,
        performanceMsAt: () => undefined,
      },
      engine: unknown,
      originPerformanceMs: 0,
      fromUs: 0,
      events: () => [click(0)],
    }).fill();
    expect(unknown.sounds).toEqual([]);
  });

  it('is silent at once when stopped, and stays so', () => {
    const { engine, schedule, runTo } = rig(every(100_000, 9_000_000));
    runTo(2);
    const queued = engine.sounds.length;
    schedule.stop();
    runTo(5);
    expect(engine.closed).toBe(true);
    expect(engine.sounds.length).toBe(queued);
  });

  it('sounds the count-in before bar 1', () => {
    const { engine, runTo } = rig(every(500_000, 1_000_000, -1_000_000), -1_000_000);
    runTo(3);
    expect(engine.sounds.map((s) => s.atSeconds)).toEqual([0, 0.5, 1, 1.5]);
  });

  it('keeps ten minutes of clicks within one sample of intent through tempo changes, 120 ppm apart', () => {
    const sampleRate = 48_000;
    const ppm = 120;
    const tempo = tempoMap([
      { fromBeat: beats(0), bpm: 133 },
      { fromBeat: beats(400), bpm: 97.3 },
      { fromBeat: beats(700), bpm: 171 },
    ]);
    const times: number[] = [];
    for (let beat = 0; (times.at(-1) ?? 0) < 600_000_000; beat++)
      times.push(tempo.usAt(beats(beat)));
    const engine = new FakeOutput();
    const schedule = createSoundSchedule({
      clockMap: exactMap(MAP_OFFSET_MS, ppm),
      engine,
      originPerformanceMs: ORIGIN_MS,
      fromUs: 0,
      events: within(times),
    });
    for (; engine.currentSeconds < 603; engine.currentSeconds += 0.1) schedule.fill();
    expect(engine.sounds).toHaveLength(times.length);
    let worstSamples = 0;
    let due = 0;
    engine.sounds.forEach(({ atSeconds }, beat) => {
      // Seconds of audio time: 1 s and 120 ppm of 11 s after the map's zero, and then beat by beat.
      const intended = 1 + (11 + due) * ppm * 1e-6 + due;
      worstSamples = Math.max(worstSamples, Math.abs(atSeconds - intended) * sampleRate);
      due += 60 / (beat < 400 ? 133 : beat < 700 ? 97.3 : 171);
    });
    expect(worstSamples).toBeLessThan(1);
  });
});
