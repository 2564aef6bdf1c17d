import { describe, expect, it } from 'vitest';
import { mainIndex } from '../../src/match/timed-note';
import { timedNotes } from '../../src/match/timed-notes';
import { steadyTempo } from '../../src/time/tempo';
import { phraseOf } from '../phrase/phrase-of';

/** The limbs of a grouping's first cycle in time order, grace notes small, and which note each belongs to. */
function belonging(grouping: string) {
  const plan = {
    phrase: phraseOf({ grouping }),
    passages: [{ fromBar: 1, layer: 1 }],
    tempo: steadyTempo(60),
    windows: { toleranceMs: undefined, reachMs: undefined },
  };
  const notes = timedNotes(plan, 900_000);
  const shown = notes.map(({ note: { limb, graceStep } }) =>
    graceStep > 0 ? limb.toLowerCase() : limb,
  );
  return { limbs: shown.join(' '), mains: notes.map((_, i) => mainIndex(notes, i)) };
}

describe('mainIndex', () => {
  it('is the note itself for main notes', () => {
    expect(belonging('R L - K')).toEqual({ limbs: 'R L K', mains: [0, 1, 2] });
  });

  it('is the note that a flam or a drag leads up to, past what sounds with it', () => {
    expect(belonging('lR - llR L')).toEqual({ limbs: 'l R l l R L', mains: [1, 1, 4, 4, 4, 5] });
    expect(belonging('lR+K - - -')).toEqual({ limbs: 'l R K', mains: [1, 1, 2] });
    expect(belonging('K+lR - - -')).toEqual({ limbs: 'l R K', mains: [1, 1, 2] });
  });

  it('tells the grace notes of two hands at once apart', () => {
    expect(belonging('rlR+L - - -')).toEqual({ limbs: 'r l R L', mains: [2, 2, 2, 3] });
    expect(belonging('R+rlL - - -')).toEqual({ limbs: 'r l R L', mains: [3, 3, 2, 3] });
  });

  it('is the note itself where the list ends before its main note', () => {
    const { limbs } = belonging('R - - lR');
    expect(limbs).toBe('R l R');
    const plan = {
      phrase: phraseOf({ grouping: 'R - - lR' }),
      passages: [{ fromBar: 1, layer: 1 }],
      tempo: steadyTempo(60),
      windows: { toleranceMs: undefined, reachMs: undefined },
    };
    const notes = timedNotes(plan, 900_000).slice(0, 2);
    expect(mainIndex(notes, 1)).toBe(1);
  });
});
