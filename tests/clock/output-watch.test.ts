import { describe, expect, it } from 'vitest';
import { createOutputWatch, type WatchedOutput } from '../../src/clock/output-watch';

const usual: WatchedOutput = { outputLatency: 0.032, sampleRate: 48_000 };
const names = (watch: ReturnType<typeof createOutputWatch>, output: WatchedOutput, looks = 5) =>
  Array.from({ length: looks }, () => watch.look(output).map(({ name }) => name)).flat();

describe('the output watch', () => {
  it('says nothing of an output that stays, of zeros, or of small changes', () => {
    const watch = createOutputWatch(null);
    expect(names(watch, { ...usual, outputLatency: 0 })).toEqual([]);
    expect(names(watch, usual)).toEqual([]);
    expect(names(watch, { ...usual, outputLatency: 0.051 })).toEqual([]);
    expect(names(watch, { sampleRate: 48_000 })).toEqual([]);
  });

  it('tells once of a lasting step over 20 ms, and not of a passing one', () => {
    const watch = createOutputWatch(null);
    names(watch, usual);
    expect(names(watch, { ...usual, outputLatency: 0.06 }, 2)).toEqual([]);
    expect(names(watch, usual)).toEqual([]);
    expect(names(watch, { ...usual, outputLatency: 0.06 })).toEqual(['changed']);
    expect(names(watch, usual)).toEqual(['changed']);
  });

  it('advises a cable over 80 ms, from the start or after a change', () => {
    expect(names(createOutputWatch(null), { ...usual, outputLatency: 0.18 })).toEqual(['slow']);
    const watch = createOutputWatch(null);
    names(watch, usual);
    expect(names(watch, { ...usual, outputLatency: 0.18 })).toEqual(['changed', 'slow']);
  });

  it('names the reason and the remedy', () => {
    const watch = createOutputWatch(null);
    names(watch, usual);
    const told = Array.from({ length: 3 }, () =>
      watch.look({ outputLatency: 0.18, sampleRate: 48_000 }),
    ).flat();
    expect(told[0]!.sentence).toContain('from 32 ms to 180 ms');
    expect(told[1]!.sentence).toContain('more than 80 ms looks like wireless');
    expect(told[1]!.sentence).toContain('with a cable');
  });

  it('tells of another sample rate', () => {
    const watch = createOutputWatch(null);
    names(watch, usual);
    expect(watch.look({ ...usual, sampleRate: 44_100 })[0]!.sentence).toContain(
      'from 48000 to 44100 Hz',
    );
  });

  it('tells of a device that came or went, once, until stopped', () => {
    const devices = new EventTarget();
    const watch = createOutputWatch(devices);
    names(watch, usual);
    devices.dispatchEvent(new Event('devicechange'));
    expect(names(watch, usual)).toEqual(['changed']);
    watch.stop();
    devices.dispatchEvent(new Event('devicechange'));
    expect(names(watch, usual)).toEqual([]);
  });
});
