import { describe, expect, it } from 'vitest';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import { Audition } from '../../src/practice/audition.svelte';
import type { AudioEngine } from '../../src/sound/audio-engine';
import { AUDIO_STATES, type AudioState } from '../../src/sound/audio-state';
import { exactMap, FakeOutput } from '../sound/fake-output';

function written(file: object): Phrase {
  const checked = checkPhrase({
    title: 'Tow Line',
    meter: '2/4',
    tempoBpm: 120,
    subdivision: 2,
    grouping: 'R L K',
    layers: [{ name: 'Sticking' }],
    ...file,
  });
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return checked.value;
}
/** At 120 bpm its strokes are 250 ms apart. */
const towLine = written({});

/** Audio and performance time are one; `state` is what starting the sound comes to. */
function rig(state: AudioState = AUDIO_STATES.running) {
  const clock = { nowMs: 10_000 };
  const starts: (() => void)[] = [];
  const pumps = new Set<() => void>();
  const output = Object.assign(new FakeOutput(), {
    currentSeconds: 10,
    start: () => Promise.resolve(state),
    observe: () => undefined,
    prepare: () => undefined,
  });
  const audition = new Audition({
    engine: output as unknown as AudioEngine,
    clockMap: exactMap(0),
    nowMs: () => clock.nowMs,
    pump: (onTick) => {
      pumps.add(onTick);
      return () => void pumps.delete(onTick);
    },
  });
  return {
    audition,
    output,
    pumps,
    /** The sound starts only when the test lets it. */
    startLater: () => {
      output.start = () => new Promise<AudioState>((resolve) => starts.push(() => resolve(state)));
      return () => starts.splice(0).forEach((start) => start());
    },
    passTo: (ms: number) => {
      while (clock.nowMs < ms) {
        clock.nowMs = Math.min(ms, clock.nowMs + 100);
        output.currentSeconds = clock.nowMs / 1000;
        for (const tick of pumps) tick();
      }
    },
    voices: () =>
      output.sounds
        .filter(({ cancelled }) => !cancelled)
        .map(({ event }) => ('voice' in event ? event.voice : 'click')),
    heardMs: () =>
      output.sounds
        .filter(({ cancelled }) => !cancelled)
        .map(({ atSeconds }) => Math.round(atSeconds * 1000)),
  };
}

describe('hearing a phrase', () => {
  it('sounds over and over at its own tempo, without the click', async () => {
    const { audition, passTo, heardMs, voices } = rig();
    await audition.play('tow', { phrase: towLine });
    expect(audition.key).toBe('tow');
    passTo(12_000);
    const first = heardMs()[0]!;
    expect(first).toBeGreaterThan(10_000);
    expect(heardMs().slice(0, 8)).toEqual([0, 1, 2, 3, 4, 5, 6, 7].map((i) => first + 250 * i));
    expect(voices().slice(0, 6)).toEqual([
      'snare',
      'snare',
      'bass drum',
      'snare',
      'snare',
      'bass drum',
    ]);
    expect(voices()).not.toContain('click');
  });

  it('sounds at another tempo, with the click, and only up to a layer, if told', async () => {
    const layered = written({
      layers: [
        { name: 'Sticking' },
        { name: 'Ride', changes: [{ where: { limb: 'R' }, set: { voice: 'ride' } }] },
      ],
    });
    const { audition, passTo, heardMs, voices } = rig();
    await audition.play('tow', { phrase: layered, bpm: 60, click: true, layer: 1 });
    passTo(12_500);
    expect(voices()).toContain('click');
    expect(voices()).not.toContain('ride');
    const times = [...new Set(heardMs())];
    expect(times[1]! - times[0]!).toBe(500);
    await audition.play('tow', { phrase: layered });
    passTo(13_500);
    expect(voices()).toContain('ride');
  });

  it('begins with the pickup', async () => {
    const pickup = written({
      layers: [
        { name: 'Sticking' },
        {
          name: 'Pickup',
          changes: [{ pickup: [{ partialsBefore: 1, limb: 'L', voice: 'floor tom' }] }],
        },
      ],
    });
    const { audition, passTo, voices, output } = rig();
    await audition.play('tow', { phrase: pickup });
    expect(audition.nowUs()).toBeLessThan(-250_000);
    passTo(11_000);
    expect(voices()[0]).toBe('floor tom');
    expect(output.sounds[0]!.event.timeUs).toBe(-250_000);
  });

  it('changes while it sounds: what was queued falls silent, what sounded stays', async () => {
    const { audition, passTo, output, voices } = rig();
    await audition.play('tow', { phrase: towLine });
    passTo(12_000);
    const sounded = output.sounds.filter(({ atSeconds }) => atSeconds < 12);
    const queued = output.sounds.filter(({ atSeconds }) => atSeconds > 12.1);
    expect(queued.length).toBeGreaterThan(0);
    audition.change('tow', { phrase: written({ grouping: 'K' }) });
    expect(sounded.some(({ cancelled }) => cancelled)).toBe(false);
    expect(queued.every(({ cancelled }) => cancelled)).toBe(true);
    passTo(13_000);
    expect(audition.key).toBe('tow');
    expect(new Set(voices().slice(-4))).toEqual(new Set(['bass drum']));
  });

  it('does not change for another key', async () => {
    const { audition, passTo, output } = rig();
    await audition.play('tow', { phrase: towLine });
    passTo(11_000);
    audition.change('pier', { phrase: written({ grouping: 'K' }) });
    expect(output.sounds.some(({ cancelled }) => cancelled)).toBe(false);
  });

  it('stops: every sound ends, nothing more is queued', async () => {
    const { audition, passTo, output, pumps } = rig();
    await audition.play('tow', { phrase: towLine });
    passTo(11_000);
    audition.stop();
    expect([audition.key, audition.nowUs(), output.closed]).toEqual([undefined, undefined, true]);
    expect(pumps.size).toBe(0);
    const count = output.sounds.length;
    passTo(13_000);
    expect(output.sounds).toHaveLength(count);
  });

  it('hears one thing at a time', async () => {
    const { audition, output, pumps } = rig();
    await audition.play('tow', { phrase: towLine });
    await audition.play('pier', { phrase: towLine });
    expect([audition.key, output.closed, pumps.size]).toEqual(['pier', true, 1]);
  });
});

describe('while the sound starts', () => {
  it('what is to be heard may still change', async () => {
    const { audition, startLater, passTo, voices } = rig();
    const start = startLater();
    const played = audition.play('tow', { phrase: towLine });
    audition.change('tow', { phrase: written({ grouping: 'K' }) });
    start();
    await played;
    passTo(11_000);
    expect(new Set(voices())).toEqual(new Set(['bass drum']));
  });

  it('a stop keeps it silent', async () => {
    const { audition, startLater, output, pumps } = rig();
    const start = startLater();
    const played = audition.play('tow', { phrase: towLine });
    audition.stop();
    start();
    await played;
    expect([audition.key, output.sounds.length, pumps.size]).toEqual([undefined, 0, 0]);
  });

  it('of two asked for only the last is heard', async () => {
    const { audition, startLater, pumps, passTo, voices } = rig();
    const start = startLater();
    const both = [
      audition.play('tow', { phrase: towLine }),
      audition.play('pier', { phrase: written({ grouping: 'K' }) }),
    ];
    start();
    await Promise.all(both);
    passTo(11_000);
    expect([audition.key, pumps.size]).toEqual(['pier', 1]);
    expect(new Set(voices())).toEqual(new Set(['bass drum']));
  });
});

describe('when the sound does not start', () => {
  it('says why, and nothing is heard', async () => {
    const { audition, output, pumps } = rig(AUDIO_STATES.unsupported);
    await audition.play('tow', { phrase: towLine });
    expect(audition.problem).toBe(AUDIO_STATES.unsupported.sentence);
    expect([audition.key, output.sounds.length, pumps.size]).toEqual([undefined, 0, 0]);
  });

  it('says so no more once it does', async () => {
    const { audition, output } = rig(AUDIO_STATES.suspended);
    await audition.play('tow', { phrase: towLine });
    expect(audition.problem).toBe(AUDIO_STATES.suspended.sentence);
    output.start = () => Promise.resolve(AUDIO_STATES.running);
    await audition.play('tow', { phrase: towLine });
    expect([audition.problem, audition.key]).toEqual([undefined, 'tow']);
  });
});
