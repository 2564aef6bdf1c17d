import { describe, expect, it } from 'vitest';
import { Audition } from '../../src/practice/audition.svelte';
import type { AudioEngine } from '../../src/sound/audio-engine';
import { layeredPhrase } from '../phrase/phrase-of';
import { exactMap, FakeOutput } from '../sound/fake-output';

/** Eighths in 2/4 at 120 bpm: a partial is 250 ms, a bar a second. The cycle of 3 starts anew every 750 ms. */
const phrase = layeredPhrase({ grouping: 'R L K', meter: '2/4', subdivision: 2, tempoBpm: 120 }, [
  { pickup: [{ partialsBefore: 1, limb: 'L' }] },
]);

function rig() {
  const output = Object.assign(new FakeOutput(), {
    start: async () => ({ name: 'running', sentence: '' }),
    observe: () => undefined,
    prepare: () => undefined,
  });
  const audition = new Audition({
    engine: output as unknown as AudioEngine,
    clockMap: exactMap(0),
    nowMs: () => output.currentSeconds * 1000,
    pump: () => () => undefined,
  });
  const heard = (kind: 'click' | 'voice') =>
    output.sounds
      .filter(({ event }) => event.kind === kind)
      .map(({ event, atSeconds }) => [event.timeUs / 1000, Math.round(atSeconds * 1000)])
      .slice(0, 3);
  return { audition, heard };
}

describe('what is heard', () => {
  it('begins with the pickup, 300 ms after the button', async () => {
    const { audition, heard } = rig();
    await audition.play('a', { phrase });
    expect(heard('voice')).toEqual([
      [-250, 300],
      [0, 550],
      [250, 800],
    ]);
    expect(heard('click')).toEqual([]);
  });

  it('begins with a bar, in the middle of its cycle, click and all', async () => {
    const { audition, heard } = rig();
    await audition.play('a', { phrase, fromBar: 30, click: true });
    expect(heard('voice')).toEqual([
      [29_000, 300],
      [29_250, 550],
      [29_500, 800],
    ]);
    expect(heard('click').slice(0, 2)).toEqual([
      [29_000, 300],
      [29_500, 800],
    ]);
    expect(audition.nowUs()).toBe(28_700_000);
  });
});
