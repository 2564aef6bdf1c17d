import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import type { Kit } from '../../src/kit/kit';
import {
  CHOKE,
  createKitReader,
  IGNORED,
  OPENING,
  STROKE,
  UNMAPPED,
} from '../../src/kit/kit-reader';
import { padGroups } from '../../src/kit/pad-groups';
import { VOICES } from '../../src/phrase/model/voice';

const struck = (kit: Kit, ...messages: [number, number, number][]) => {
  const reader = createKitReader(kit);
  return messages.flatMap((message) =>
    reader.read(...message) === STROKE ? [`${VOICES[reader.voiceNumber]} ${reader.velocity}`] : [],
  );
};

/** One hi-hat pad on note 8 whose voice follows controller 4. */
const following = (highMeans: 'open' | 'closed', openFrom = 0.5): Kit => ({
  title: 'Quay shed kit',
  opening: { controller: 4, highMeans, openFrom },
  pads: [
    { note: 8, name: 'hi-hat', voice: 'hi-hat closed', group: 'hi-hat', followsOpening: true },
    { note: 9, name: 'snare', voice: 'snare', group: 'snare' },
  ],
});

describe('createKitReader', () => {
  it('reads note-ons byte for byte: 99 26 40 is the snare at 64 (MIDI 1.0; lines computed, C)', () => {
    expect(struck(EDGE_AND_RIM, [0x99, 0x26, 0x40], [0x99, 0x24, 0x50])).toEqual([
      'snare 64',
      'bass drum 80',
    ]);
  });

  it('takes a note-on of velocity 0 as a note-off (MIDI 1.0 [F])', () => {
    expect(createKitReader(EDGE_AND_RIM).read(0x99, 0x26, 0)).toBe(IGNORED);
    expect(createKitReader(EDGE_AND_RIM).read(0x89, 0x26, 64)).toBe(IGNORED);
  });

  it('accepts every channel', () => {
    for (let channel = 0; channel < 16; channel++)
      expect(struck(EDGE_AND_RIM, [0x90 | channel, 51, 70])).toEqual(['ride 70']);
  });

  it('ignores system bytes, program, channel pressure, bend and damaged data', () => {
    const reader = createKitReader(EDGE_AND_RIM);
    for (const status of [0xf0, 0xf8, 0xfe, 0xff, 0xc9, 0xd9, 0xe9, 0x40])
      expect(reader.read(status, 38, 100)).toBe(IGNORED);
    expect(reader.read(0x99, 200, 100)).toBe(IGNORED);
    expect(reader.read(0x99, 38, 128)).toBe(IGNORED);
  });

  it('tells a choke from a stroke: A9 31 7F then A9 31 00 on crash 49', () => {
    const reader = createKitReader(EDGE_AND_RIM);
    expect([reader.read(0xa9, 0x31, 0x7f), reader.read(0xa9, 0x31, 0)]).toEqual([CHOKE, CHOKE]);
    expect(reader.pad).toBe(49);
  });

  it('counts notes without a pad', () => {
    const reader = createKitReader(EDGE_AND_RIM);
    expect([reader.read(0x99, 3, 80), reader.read(0x99, 3, 9)]).toEqual([UNMAPPED, UNMAPPED]);
    expect(reader.unmapped[3]).toBe(2);
    reader.reset();
    expect(reader.unmapped[3]).toBe(0);
  });

  it('gives the zones of one pad one group', () => {
    const reader = createKitReader(EDGE_AND_RIM);
    reader.read(0x99, 38, 80);
    const head = reader.group;
    reader.read(0x99, 40, 80);
    expect(reader.group).toBe(head);
    expect(padGroups(EDGE_AND_RIM).names[head]).toBe('snare');
  });

  it.each([
    ['closed', 127, 'hi-hat closed 70'],
    ['closed', 0, 'hi-hat open 70'],
    ['open', 127, 'hi-hat open 70'],
    ['open', 0, 'hi-hat closed 70'],
  ] as const)('when high means %s, controller 4 at %i makes %s', (highMeans, value, expected) => {
    expect(struck(following(highMeans), [0xb9, 4, value], [0x99, 8, 70])).toEqual([expected]);
  });

  it('opens exactly from the stated openness', () => {
    const kit = following('open', 64 / 127);
    expect(struck(kit, [0xb9, 4, 63], [0x99, 8, 1], [0xb9, 4, 64], [0x99, 8, 2])).toEqual([
      'hi-hat closed 1',
      'hi-hat open 2',
    ]);
  });

  it('keeps the own voice of a pad before the controller speaks, and after a reset', () => {
    const reader = createKitReader(following('closed'));
    reader.read(0x99, 8, 70);
    expect(VOICES[reader.voiceNumber]).toBe('hi-hat closed');
    expect(reader.read(0xb9, 4, 0)).toBe(OPENING);
    expect(reader.openness).toBe(1);
    reader.reset();
    expect(reader.openness).toBe(-1);
  });

  it('ignores the fine half of the opening, controller 36, and other controllers', () => {
    const reader = createKitReader(following('closed'));
    expect(reader.read(0xb9, 36, 0)).toBe(IGNORED);
    expect(reader.openness).toBe(-1);
  });

  it('leaves pads alone that do not follow the opening', () => {
    expect(struck(following('closed'), [0xb9, 4, 0], [0x99, 9, 70])).toEqual(['snare 70']);
    expect(struck(EDGE_AND_RIM, [0xb9, 4, 0], [0x99, 42, 70])).toEqual(['hi-hat closed 70']);
  });
});
