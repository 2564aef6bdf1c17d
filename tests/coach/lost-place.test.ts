import { describe, expect, it } from 'vitest';
import { lostPlace } from '../../src/coach/lost-place';
import type { Stroke } from '../../src/kit/stroke';
import type { TimedNote } from '../../src/match/timed-note';
import { VOICES } from '../../src/phrase/model/voice';
import { answer, due } from '../score/cases';
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

  /** Cycles of `notes` partials of 100 ms, every partial on a voice of its own as far as there are voices. */
  const written = (cycles: number, notes: number) =>
    Array.from({ length: cycles * notes }, (_, i) =>
      due(i * 100, {
        cycle: 1 + Math.floor(i / notes),
        position: 1 + (i % notes),
        voice: VOICES[(i % notes) % VOICES.length]!,
      }),
    );
  /** The slip in what is written when of each cycle the first `moved` notes are played so many partials on, and the next ones in place. */
  const slipIn = (all: readonly TimedNote[], shift: number, moved = 99, inPlace = 0) => {
    const extras = all.flatMap(({ note, timeUs }) => {
      if (note.position > moved + inPlace) return [];
      const byUs = note.position <= moved ? shift * 100_000 : 0;
      return [{ timeUs: timeUs + byUs, voice: note.voice, velocity: 70, pad: 0 }];
    });
    const notes = all.map((note) => answer(note, undefined));
    return lostPlace({ notes, extras }, () => BOUNDARIES)?.partials;
  };

  it.each([
    ['seven notes of ten met at the other place', written(2, 10), 1, 7, 0, 1],
    ['six of ten', written(2, 10), 1, 6, 0, undefined],
    ['half as many met in place', written(2, 16), 1, 12, 4, 1],
    ['two cycles', written(2, 12), -1, 99, 0, -1],
    ['one cycle', written(1, 12), -1, 99, 0, undefined],
    ['twelve notes', written(2, 6), 1, 99, 0, 1],
    ['eleven', written(2, 6).slice(0, 11), 1, 99, 0, undefined],
    ['half a cycle', written(2, 10), 5, 99, 0, 5],
    ['more than half a cycle', written(2, 10), 6, 99, 0, undefined],
    ['sixteen partials', written(2, 40), 16, 99, 0, 16],
    ['seventeen partials', written(2, 40), 17, 99, 0, undefined],
  ])('%s', (_, all, shift, moved, inPlace, found) => {
    expect(slipIn(all, shift, moved, inPlace)).toBe(found);
  });

  it('is not found without notes', () => {
    expect(lostPlace({ notes: [], extras: [] }, () => BOUNDARIES)).toBeUndefined();
  });
});
