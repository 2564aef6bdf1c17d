import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { createKitReader, STROKE, UNMAPPED } from '../../src/kit/kit-reader';
import { checkKit } from '../../src/kit/parse-kit';
import { withPad } from '../../src/kit/with-pad';

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
