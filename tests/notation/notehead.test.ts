import { describe, expect, it } from 'vitest';
import { GLYPH, NOTEHEADS } from '../../src/notation/notehead';
import { STAFF_PLACES } from '../../src/notation/staff-places';
import { VOICES, voiceNumber, type Voice } from '../../src/phrase/model/voice';

const lookOf = (voice: Voice, closedSigns: boolean) => {
  const { glyph, sign, signBelow } = NOTEHEADS[voiceNumber(voice)]!;
  const shown = sign === GLYPH.closed && !closedSigns ? '' : sign;
  return `${STAFF_PLACES[voice]} ${glyph} ${shown}${signBelow ? ' below' : ''}`;
};

describe('heads', () => {
  it('lawEachItsOwnLook: no two voices share place, head and sign, closed hi-hats without their plus or with it', () => {
    for (const closedSigns of [true, false])
      expect(new Set(VOICES.map((voice) => lookOf(voice, closedSigns))).size).toBe(VOICES.length);
  });

  // Weinberg, "Guidelines for Drumset Notation", Percussive Notes 32(3), 1994.
  it.each<[Voice, string]>([
    ['snare', GLYPH.head],
    ['side stick', GLYPH.x],
    ['hi-hat closed', GLYPH.x],
    ['ride', GLYPH.x],
    ['ride bell', GLYPH.diamond],
    ['crash', GLYPH.x],
  ])('%s has the head that Weinberg has', (voice, glyph) => {
    expect(NOTEHEADS[voiceNumber(voice)]!.glyph).toBe(glyph);
  });
});
