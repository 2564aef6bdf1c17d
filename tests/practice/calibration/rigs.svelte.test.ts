import { beforeEach, describe, expect, it } from 'vitest';
import type { RigProfile } from '../../../src/clock/latency/rig-profile';
import { Rigs } from '../../../src/practice/calibration/rigs.svelte';
import { AUDIO_STATES } from '../../../src/sound/audio-state';
import { SettingsStore } from '../../../src/store/settings-store';

beforeEach(() => localStorage.clear());

/** A page with one sound output and one MIDI port, both to be changed. */
function page(settings = new SettingsStore()) {
  const devices = Object.assign(new EventTarget(), {
    label: '',
    async enumerateDevices() {
      return [{ kind: 'audiooutput', deviceId: 'default', label: devices.label }];
    },
  });
  const world = { port: 'Harbour kit', context: undefined as object | undefined };
  const rigs = new Rigs({
    engine: {
      get context() {
        return world.context as AudioContext | undefined;
      },
      async start() {
        world.context ??= { sampleRate: 48_000, outputLatency: 0.03 };
        return AUDIO_STATES.running;
      },
    },
    settings,
    portName: () => world.port,
    devices: devices as unknown as MediaDevices,
    today: () => '2026-11-25T10:00:00Z',
  });
  const called = async (label: string) => {
    devices.label = label;
    await rigs.refresh();
  };
  return { rigs, world, called, settings };
}

const BY_HAND = { deviceOffsetMs: 17, method: 'by hand' } as const;

const TEN_EARLY = { deviceAndHabitMs: -10, lowerMs: -14, upperMs: -6 };
const FOUND = { ...TEN_EARLY, spreadMs: 11, strokes: 40, warmUp: 4, wild: 0 };

describe('what playing to the click has told', () => {
  it('is there for a page opened later, on that rig alone, and outlives the rig’s offset', async () => {
    const { rigs, settings } = page();
    await rigs.keep(BY_HAND);
    rigs.remember(FOUND);
    rigs.forget();
    const later = page(settings);
    expect(later.rigs.playedToClick).toMatchObject({
      port: 'Harbour kit',
      ...TEN_EARLY,
      playedAt: '2026-11-25T10:00:00Z',
    });
    later.world.port = 'Another kit';
    expect(later.rigs.playedToClick).toBeUndefined();
  });

  it('gives way to a later playing', async () => {
    const { rigs, settings } = page();
    rigs.remember(FOUND);
    rigs.remember({ ...FOUND, deviceAndHabitMs: 3, lowerMs: 0, upperMs: 6 });
    expect(page(settings).rigs.playedToClick?.deviceAndHabitMs).toBe(3);
  });
});

describe('the offset of the rig in use', () => {
  it('is kept for a page opened later, and goes into takes of the kit alone', async () => {
    const { rigs, settings } = page();
    expect(rigs.beginTake('kit')).toBe(0);
    await rigs.keep(BY_HAND);
    expect(rigs.profile).toEqual({
      outputLabel: '',
      sampleRate: 48_000,
      port: 'Harbour kit',
      ...BY_HAND,
      measuredAt: '2026-11-25T10:00:00Z',
    } satisfies RigProfile);
    const later = page(settings).rigs;
    expect(later.beginTake('kit')).toBe(17);
    for (const player of ['simulated player', 'file', 'keyboard and pads'] as const)
      expect(later.beginTake(player)).toBe(0);
    later.forget();
    expect(page(settings).rigs.beginTake('kit')).toBe(0);
  });

  it('is another one on another port or another output, and that is told', async () => {
    const { rigs, world, called } = page();
    await called('Desk speakers');
    await rigs.keep(BY_HAND);
    world.port = 'Lighthouse kit';
    expect(rigs.beginTake('kit')).toBe(0);
    expect(rigs.notices.join()).toContain('no longer from “Harbour kit”');
    world.port = 'Harbour kit';
    expect(rigs.beginTake('kit')).toBe(17);
    await called('Hall speakers');
    expect(rigs.beginTake('kit')).toBe(0);
    expect(rigs.notices.join()).toContain('“Hall speakers”');
    world.context = { sampleRate: 44_100 };
    rigs.settle();
    expect(rigs.notices.join()).toContain('44100 Hz');
  });

  it('stays when the browser only comes to tell, or no longer tells, the output’s name', async () => {
    const { rigs, called } = page();
    await rigs.keep(BY_HAND);
    await called('Desk speakers');
    expect(rigs.beginTake('kit')).toBe(17);
    await rigs.keep({ ...BY_HAND, deviceOffsetMs: 21 });
    await called('');
    expect(rigs.beginTake('kit')).toBe(21);
    expect(rigs.notices).toEqual([]);
  });

  it('stays while the port is unplugged', async () => {
    const { rigs, world } = page();
    await rigs.keep(BY_HAND);
    world.port = '';
    expect(rigs.beginTake('kit')).toBe(17);
    expect(rigs.notices).toEqual([]);
  });

  it('is not told to have changed when the sound runs for the first time', async () => {
    const { rigs, world, called, settings } = page();
    await called('');
    world.context = { sampleRate: 44_100 };
    rigs.beginTake('kit');
    expect(rigs.notices).toEqual([]);
    const later = page(settings);
    later.world.context = { sampleRate: 48_000 };
    later.rigs.beginTake('kit');
    expect(later.rigs.notices.join()).toContain('48000 Hz');
  });

  it('is told to be worth nothing by radio', async () => {
    const { rigs, world, called } = page();
    world.context = { sampleRate: 48_000, outputLatency: 0.18 };
    await called('');
    expect(rigs.radioAdvice).toContain('use a cable');
    world.context = { sampleRate: 48_000, outputLatency: 0.02 };
    await called('Bluetooth headphones');
    expect(rigs.radioAdvice).toContain('use a cable');
    await called('Desk speakers');
    expect(rigs.radioAdvice).toBeUndefined();
  });

  it('is watched while sound runs: a lasting step of the output’s delay is told', async () => {
    const { rigs, world } = page();
    world.context = { sampleRate: 48_000, outputLatency: 0.02 };
    rigs.look();
    world.context = { sampleRate: 48_000, outputLatency: 0.19 };
    for (let look = 0; look < 3; look++) rigs.look();
    expect(rigs.notices.join()).toContain('output device changed');
    expect(rigs.notices.join()).toContain('cable');
  });
});
