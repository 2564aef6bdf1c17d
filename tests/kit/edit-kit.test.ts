import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { ownCopy, withBoundaries, withPad } from '../../src/kit/edit-kit';
import { createKitReader, STROKE, UNMAPPED } from '../../src/kit/kit-reader';
import { checkKit } from '../../src/kit/parse-kit';

describe('a kit with a pad more', () => {
  it('reads the new note, and all others as before', () => {
    const kit = withPad(EDGE_AND_RIM, 91, 'snare', 'Boathouse');
    expect(checkKit(kit).ok).toBe(true);
    const before = createKitReader(EDGE_AND_RIM);
    const after = createKitReader(kit);
    for (let note = 0; note < 128; note++) {
      const kind = before.read(0x99, note, 80);
      expect(after.read(0x99, note, 80)).toBe(note === 91 ? STROKE : kind);
      if (kind === STROKE) expect(after.voiceNumber).toBe(before.voiceNumber);
      else if (note === 91) expect(kind).toBe(UNMAPPED);
    }
  });

  it('puts the new pad among those that shake together with its voice', () => {
    expect(withPad(EDGE_AND_RIM, 91, 'snare').pads.at(-1)?.group).toBe('snare');
  });

  it('leaves a note that is known as it is', () => {
    expect(withPad(EDGE_AND_RIM, 38, 'cowbell').pads).toEqual(EDGE_AND_RIM.pads);
  });
});

describe('the kit that takes in what was learned', () => {
  const first = withBoundaries(ownCopy(GENERAL_MIDI, [GENERAL_MIDI], 'levels'), 38, {
    ghostMax: 40,
    accentMin: 88,
  });

  it('is the same copy the second time, with what was learned before', () => {
    const again = ownCopy(GENERAL_MIDI, [GENERAL_MIDI, first], 'levels');
    expect(again).toBe(first);
    const both = withBoundaries(again, 48, { ghostMax: 35, accentMin: 90 });
    expect(both.pads.filter(({ ghostMax }) => ghostMax).map(({ note }) => note)).toEqual([38, 48]);
  });

  it('is the player’s own kit where one is played', () => {
    expect(ownCopy(first, [GENERAL_MIDI, first], 'levels')).toBe(first);
  });

  it('is another copy for another thing learned', () => {
    expect(ownCopy(GENERAL_MIDI, [GENERAL_MIDI, first], 'crosstalk')).toEqual({
      ...GENERAL_MIDI,
      title: 'General MIDI percussion, my crosstalk',
    });
  });
});
