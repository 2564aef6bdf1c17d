import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { withBoundaries } from '../../src/kit/edit-kit';
import type { Kit } from '../../src/kit/kit';
import { good } from '../../src/time/result';
import { FirstStart } from '../../src/practice/first-start/first-start.svelte';
import { SettingsStore } from '../../src/store/settings-store';

function rig(settings = new SettingsStore(null)) {
  const inputs = {
    kit: EDGE_AND_RIM,
    async saveKit(kit: Kit) {
      inputs.kit = kit;
      return good(kit);
    },
    mapNote: () => inputs.saveKit({ ...inputs.kit, title: 'Slipway' }),
  };
  const rigs = { profile: undefined };
  const begin = () => new FirstStart({ settings, inputs, rigs });
  return { inputs, rigs, begin, first: begin() };
}

describe('the first start', () => {
  it('knows the next day what was done and what was left out', () => {
    const { first, begin } = rig();
    first.finish('kit');
    first.leaveOut('levels', 'offset');
    const again = begin();
    expect(again.stateOf('kit')).toBe('done');
    expect(again.stateOf('levels')).toBe('skipped');
    expect(again.stateOf('play')).toBe('open');
    again.finish('pads');
    again.leaveOut('pads');
    expect(again.stateOf('pads')).toBe('done');
  });

  it('calls levels and offset done wherever they were made', () => {
    const { first, inputs, rigs } = rig();
    first.leaveOut('levels', 'offset');
    inputs.kit = withBoundaries(EDGE_AND_RIM, 38, { ghostMax: 40, accentMin: 90 });
    Object.assign(rigs, { profile: {} });
    expect(first.stateOf('levels')).toBe('done');
    expect(first.stateOf('offset')).toBe('done');
  });

  it('asks for pads when a phrase first needs them, once others were struck', () => {
    const { first } = rig();
    const voices = ['snare', 'ride', 'cowbell'] as const;
    expect(first.firstNeeded(voices)).toEqual([]);
    expect(first.notAsked(voices)).toEqual(voices);
    first.rememberPads({ has: ['snare'], lacks: ['cowbell'] });
    expect(first.firstNeeded(voices)).toEqual(['ride']);
    expect(first.lacking(voices)).toEqual(['cowbell']);
    expect(first.struck(voices)).toEqual(['snare']);
  });

  it('takes what is said last of a pad', () => {
    const { first, begin } = rig();
    first.rememberPads({ has: ['snare', 'ride'], lacks: ['cowbell'] });
    first.rememberPads({ has: ['cowbell'], lacks: ['ride'] });
    expect(begin().lacking(['snare', 'ride', 'cowbell'])).toEqual(['ride']);
    expect(begin().struck(['snare', 'ride', 'cowbell'])).toEqual(['snare', 'cowbell']);
  });

  it('knows each kit by itself, and a copy by what it was made of', async () => {
    const { first, inputs } = rig();
    first.rememberPads({ has: ['snare'], lacks: [] });
    inputs.kit = GENERAL_MIDI;
    expect(first.firstNeeded(['ride'])).toEqual([]);
    inputs.kit = EDGE_AND_RIM;
    await first.saveKit({ ...EDGE_AND_RIM, title: 'Slipway' });
    expect(first.struck(['snare'])).toEqual(['snare']);
    first.rememberPads({ has: ['ride'], lacks: [] });
    inputs.kit = EDGE_AND_RIM;
    await first.saveKit({ ...EDGE_AND_RIM, title: 'Slipway' });
    expect(first.struck(['snare', 'ride'])).toEqual(['snare', 'ride']);
    expect(first.struck(['snare'])).toEqual(['snare']);
  });

  it('lacks a voice no more once a note is put on the map for it', async () => {
    const { first, inputs } = rig();
    first.rememberPads({ has: ['snare'], lacks: ['cowbell', 'ride'] });
    await first.mapNote(91, 'cowbell');
    expect(inputs.kit.title).toBe('Slipway');
    expect(first.lacking(['snare', 'cowbell', 'ride'])).toEqual(['ride']);
    expect(first.struck(['snare', 'cowbell'])).toEqual(['snare', 'cowbell']);
  });

  it('asks for no others where a note is put on a map of which nothing was struck', async () => {
    const { first } = rig();
    await first.mapNote(91, 'cowbell');
    expect(first.firstNeeded(['snare', 'cowbell'])).toEqual([]);
  });

  it('begins anew where what is kept cannot be read', () => {
    const settings = new SettingsStore(null);
    settings.write('first-start', { done: ['everything'] });
    expect(rig(settings).first.stateOf('kit')).toBe('open');
  });
});
