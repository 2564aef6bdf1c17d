import { describe, expect, it } from 'vitest';
import { lostPlace } from '../../src/coach/lost-place';
import type { Stroke } from '../../src/kit/stroke';
import { BOUNDARIES, harbourNotes, HUMAN, judged, later, PARTIAL_MS, play } from './practice-take';

const notes = harbourNotes(12);
const slipOf = (strokes: readonly Stroke[], of = notes) =>
  lostPlace(judged(of, strokes), () => BOUNDARIES);

describe('lost place', () => {
  it.each([-7, -3, -1, 1, 2, 6])('finds a slip of %i partials and where it began', (partials) => {
    const lost = { afterCycles: 4, slipMs: partials * PARTIAL_MS };
    expect(slipOf(play(notes, { ...HUMAN, lostPlace: lost }, 2))).toMatchObject({
      partials,
      cycle: 5,
      cycles: 8,
    });
  });

  it('finds one that the player came back from', () => {
    const strokes = play(notes, HUMAN, 2, (stroke, due) =>
      due.note.cycle >= 4 && due.note.cycle < 7 ? later(stroke, PARTIAL_MS) : stroke,
    );
    expect(slipOf(strokes)).toMatchObject({ partials: 1, cycle: 4, cycles: 3 });
  });

  it('finds it in a stream on one pad, by the accents', () => {
    const stream = harbourNotes(12, 2, {
      title: 'Harbour wall',
      meter: '4/4',
      tempoBpm: 96,
      subdivision: 4,
      grouping: 'R L R R L R L L',
      cycle: 16,
      layers: [
        { name: 'Sticking' },
        {
          name: 'Accents',
          changes: [{ where: { positions: [1, 4, 7, 12, 14] }, set: { level: 'accent' } }],
        },
      ],
    });
    const lost = { afterCycles: 4, slipMs: 2 * PARTIAL_MS };
    expect(slipOf(play(stream, { ...HUMAN, lostPlace: lost }, 2), stream)).toMatchObject({
      partials: 2,
      cycle: 5,
    });
  });

  it.each([
    ['as written', HUMAN],
    ['late all along', { ...HUMAN, biasMs: 30 }],
    ['half of it missed', { ...HUMAN, missed: 0.5 }],
    ['many wrong voices and extra strokes', { ...HUMAN, wrongVoices: 0.4, extra: 0.3 }],
    ['nothing played', { missed: 1 }],
  ])('is not found in a take %s', (_, faults) => {
    for (const seed of [1, 2, 3]) expect(slipOf(play(notes, faults, seed))).toBeUndefined();
  });

  it('is not found without notes', () => {
    expect(lostPlace({ notes: [], extras: [] }, () => BOUNDARIES)).toBeUndefined();
  });
});
