import { describe, expect, it } from 'vitest';
import { createFlood, FLOOD_FROM } from '../../../src/kit/faults/flood';

/** Messages of one kind, the first at this time, so many µs apart. */
function floodOf(count: number, { fromUs = 0, apartUs = 1, status = 0xb9 } = {}) {
  const flood = createFlood();
  for (let i = 0; i < count; i++) flood.add(fromUs + i * apartUs, status);
  return flood.report();
}

describe('a flood', () => {
  it('is of one second by the clock', () => {
    expect(floodOf(FLOOD_FROM, { fromUs: 1_000_000 - FLOOD_FROM })).toHaveLength(1);
    expect(floodOf(FLOOD_FROM, { fromUs: 1_000_001 - FLOOD_FROM })).toHaveLength(0);
  });

  it('counts the seconds and tells the worst', () => {
    // 800 messages a second for two seconds, and 400 in the third.
    const [fault] = floodOf(2000, { apartUs: 1250 });
    expect(fault!.count).toBe(2);
    expect(fault!.sentence).toContain('Up to 800 messages');
  });

  // Status bytes of MIDI 1.0, first and last channel; from F0 on they are the system's.
  it.each([
    [0x80, 0x8f, 'note-offs'],
    [0x90, 0x9f, 'note-ons'],
    [0xa0, 0xaf, 'pressure messages of single pads'],
    [0xb0, 0xbf, 'controller messages'],
    [0xc0, 0xcf, 'program changes'],
    [0xd0, 0xdf, 'pressure messages'],
    [0xe0, 0xef, 'pitch bends'],
    [0xf0, 0xff, 'system messages'],
  ])('of %i and %i is of %s', (first, last, kind) => {
    for (const status of [first, last])
      expect(floodOf(FLOOD_FROM, { status })[0]!.sentence).toContain(`mostly ${kind};`);
  });
});
