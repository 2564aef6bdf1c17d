import { describe, expect, it, vi } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { STROKE } from '../../src/kit/kit-reader';
import { plainTimeline } from '../../src/live/live-timeline';
import { LEAD_IN_MS, Transport, type TransportOptions } from '../../src/practice/transport';
import { phraseOf } from '../phrase/phrase-of';
import { handPage } from './hand-page';

const START_MS = 10_000;
/** A click each half second from one second before bar 1 on. */
const EVERY_US = 500_000;
const sounds = vi.fn((fromUs: number, toUs: number) =>
  Array.from({ length: 40 }, (_, k) => (k - 2) * EVERY_US)
    .filter((timeUs) => timeUs >= fromUs && timeUs < toUs)
    .map((timeUs) => ({ kind: 'click', timeUs, sound: 'beat', velocity: 90 }) as const),
);
const clicking = { leadInMs: 600, fromUs: -1_000_000, sounds, onTick: () => undefined };

function started(options: Partial<TransportOptions> = {}) {
  const hand = handPage({ nowMs: START_MS });
  const transport = new Transport(hand.dependencies, { ...clicking, ...options });
  transport.start();
  return { hand, transport };
}

describe('the time of a transport', () => {
  it('runs in whole microseconds from bar 1 beat 1, which comes after the lead-in and the count-in', () => {
    const { hand, transport } = started();
    expect(transport.originUs).toBe(11_600_000);
    expect(transport.nowUs()).toBe(-1_600_000);
    hand.freezeTo(11_600.0004);
    expect(transport.nowUs()).toBe(0);
    hand.freezeTo(11_600.0006);
    expect(transport.nowUs()).toBe(1);
  });

  it.each(Object.entries(LEAD_IN_MS))('leaves %s its lead-in before the first sound', (_, ms) => {
    const { hand } = started({ leadInMs: ms });
    hand.passTo(START_MS + 3000);
    expect(hand.output.sounds[0]!.atSeconds * 1000).toBeCloseTo(START_MS + ms, 6);
  });

  it('leaves as much as was chosen', () => {
    expect(LEAD_IN_MS).toEqual({
      countIn: 600,
      audition: 300,
      calibration: 2000,
      microphone: 1500,
    });
  });
});

describe('a transport that was started', () => {
  it('ticks at once, and then with the pump: clocks, rig, its user, sounds', () => {
    const hand = handPage({ nowMs: START_MS });
    const order: string[] = [];
    const reading = {} as ReturnType<typeof hand.dependencies.engine.observe>;
    const { engine, clockMap, rigs } = hand.dependencies;
    engine.observe = () => (order.push('clocks'), reading);
    clockMap.observe = () => void order.push('map');
    rigs.look = () => void order.push('rig');
    const transport = new Transport(hand.dependencies, {
      ...clicking,
      sounds: (fromUs, toUs) => (order.push('sounds'), sounds(fromUs, toUs)),
      onTick: () => order.push('user'),
    });
    expect(order).toEqual([]);
    transport.start();
    const once = ['clocks', 'map', 'rig', 'user', 'sounds'];
    expect(order).toEqual(once);
    hand.passTo(START_MS + 50);
    expect(order).toEqual([...once, ...once]);
  });

  it('hands messages on with their own time, exact to the microsecond', () => {
    const heard: unknown[] = [];
    const { hand } = started({
      onMessage: (stampUs, { kind, pad, velocity }) => heard.push([stampUs, kind, pad, velocity]),
    });
    hand.passTo(START_MS + 2000);
    hand.send(11_600.001, 0x99, 38, 90);
    hand.send(11_599.999, 0x99, 38, 1);
    expect(heard).toEqual([
      [1, STROKE, 38, 90],
      [-1, STROKE, 38, 1],
    ]);
  });

  it('tells when the notes mean something else', () => {
    const onKit = vi.fn();
    const { hand } = started({ onMessage: () => undefined, onKit });
    hand.useKit(EDGE_AND_RIM);
    expect(onKit.mock.lastCall).toMatchObject([{ kit: EDGE_AND_RIM }]);
  });

  it('keeps the screen on for who strikes, and not for who only listens', () => {
    expect(started().hand.page.isScreenOn).toBe(false);
    const { hand, transport } = started({ onMessage: () => undefined });
    expect(hand.page.isScreenOn).toBe(true);
    transport.stop();
    expect(hand.page.isScreenOn).toBe(false);
  });

  it('lets a file or a simulated player play to it', () => {
    const timeline = plainTimeline(phraseOf({}), 1, 90);
    const { hand, transport } = started({ onMessage: () => undefined, timeline });
    expect(hand.page.followed).toMatchObject({ originMs: 11_600, timeline });
    hand.freezeTo(12_000);
    expect(hand.page.followed!.nowUs()).toBe(400_000);
    transport.stop();
    expect(hand.page.followed).toBeUndefined();
  });

  it('asks again for what has changed: what is queued falls silent, what has sounded stays', () => {
    const { hand, transport } = started();
    hand.passTo(START_MS + 1200);
    const before = [...hand.output.sounds];
    transport.renewSounds();
    expect(before.map(({ event, cancelled }) => [event.timeUs, cancelled])).toEqual([
      [-1_000_000, false],
      [-500_000, false],
      [0, true],
      [500_000, true],
      [1_000_000, true],
    ]);
    expect(hand.output.heardUs).toEqual([-1_000_000, -500_000, 0, 500_000, 1_000_000]);
  });

  it('ends everything at once when it is stopped', () => {
    const onTick = vi.fn();
    const { hand, transport } = started({ onTick, onMessage: () => undefined });
    hand.passTo(START_MS + 500);
    transport.stop();
    const ticks = onTick.mock.calls.length;
    const queued = hand.output.sounds.length;
    hand.passTo(START_MS + 5000);
    expect(onTick).toHaveBeenCalledTimes(ticks);
    expect(hand.output.sounds).toHaveLength(queued);
    expect([hand.output.closed, hand.isTapped(), hand.page.tick]).toEqual([true, false, undefined]);
  });

  it('can be stopped by its own user, at the first tick too', () => {
    const hand = handPage();
    const transport: Transport = new Transport(hand.dependencies, {
      ...clicking,
      onTick: () => transport.stop(),
    });
    transport.start();
    expect([hand.page.tick, hand.output.sounds]).toEqual([undefined, []]);
  });

  it('is silent without sound, and ticks and hears all the same', () => {
    const { inputs, nowMs, pump, screenOn } = handPage().dependencies;
    const onTick = vi.fn();
    new Transport({ inputs, nowMs, pump, screenOn }, { ...clicking, onTick }).start();
    expect(onTick).toHaveBeenCalledOnce();
  });
});
