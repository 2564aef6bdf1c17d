import { describe, expect, it } from 'vitest';
import { openWords, otherWords, sameWords } from '../../../src/coach/comparison/comparison-words';
import type { ReadingFigures } from '../../../src/coach/comparison/reading';
import { finding } from '../../../src/coach/finding';

const SURE = { strokes: 96, bars: 12, interval: { lower: 12, upper: 16 } };
const PLACING = { name: 'left hand', ms: 14, isOwn: true, sure: SURE };
const left = finding('limb off', 0, [], PLACING);
const leftBehind = finding('limb off', 0, [], { ...PLACING, isOwn: false });
const otherTempo = finding('other tempo', 1, [], { playedBpm: 93.2, clickBpm: 90 });
const placing = (ownMs: number, restMs = 0): ReadingFigures => ({
  kind: 'placing',
  apartMs: ownMs - restMs,
  ownMs,
  restMs,
  noticeableMs: 6,
});
const share = (times: number, of: number): ReadingFigures => ({ kind: 'share', times, of });
const tempo = (quickerBpm: number): ReadingFigures => ({ kind: 'tempo', quickerBpm });
const spread = (ms: number): ReadingFigures => ({ kind: 'spread', ms });
const here = (figures: ReadingFigures, tempo = '') => ({ figures, tempo });

describe('what has changed, filled in by eye', () => {
  it.each([
    [left, placing(14), placing(9), 'Left hand 9 ms late, was 14.'],
    [left, placing(-14), placing(-9.4), 'Left hand 9 ms early, was 14.'],
    [left, placing(14), placing(-3), 'Left hand 3 ms early, was 14 ms late.'],
    [left, placing(14), placing(0.4), 'Left hand on the click, was 14 ms late.'],
    [left, placing(14), placing(22), 'Left hand 22 ms late, was 14.'],
    [leftBehind, placing(14), placing(9), 'Left hand 9 ms behind the rest, was 14.'],
    [leftBehind, placing(14), placing(0), 'Left hand with the rest, was 14 ms behind the rest.'],
    // All of the later take is late: what has changed is how far the hand is from the rest.
    [left, placing(14), placing(15, 10), 'Left hand 5 ms behind the rest, was 14.'],
    [
      finding('position off', 0, [], { ...PLACING, name: 'position 14', ms: -20 }),
      placing(-20),
      placing(-9),
      'Position 14: 9 ms early, was 20.',
    ],
    [
      finding('unison off', 0, [], {
        ...PLACING,
        name: 'left hand, with right foot',
        limbs: ['left hand', 'right foot'],
      }),
      placing(14),
      placing(9),
      'Unisons with right foot: left hand 9 ms late, was 14.',
    ],
    [
      finding('too loud', 0, [], { level: 'ghost', name: 'position 3', times: 12, of: 20, db: 3 }),
      share(12, 20),
      share(1, 24),
      'Ghosts, position 3, too loud: 1 of 24, was 12 of 20.',
    ],
    [
      finding('spread apart', 0, [], { name: 'left hand', ms: 22, restMs: 11 }),
      spread(22.4),
      spread(11.6),
      'Left hand: spread 12 ms, was 22.',
    ],
    [finding('spread', 0, [], { ms: 22 }), spread(22), spread(14), 'Spread 14 ms, was 22.'],
    [otherTempo, tempo(3.2), tempo(1.1), 'You play 1 bpm quicker than the click, was 3.'],
    [otherTempo, tempo(-3.2), tempo(0.2), "You play at the click's tempo, was 3 bpm slower."],
    [otherTempo, tempo(3.2), tempo(-1), 'You play 1 bpm slower than the click, was 3 bpm quicker.'],
    [otherTempo, tempo(1.4), tempo(0.6), 'You play 0.6 bpm quicker than the click, was 1.4.'],
    [
      finding('missed', 0, [], { name: 'position 3', times: 12, of: 20 }),
      share(12, 20),
      share(1, 24),
      'Position 3: missed 1 of 24, was 12 of 20.',
    ],
    [
      finding('missed', 0, [], { name: undefined, times: 12, of: 20 }),
      share(12, 20),
      share(1, 24),
      'Missed notes: 1 of 24, was 12 of 20.',
    ],
    [
      finding('too loud', 0, [], { level: 'ghost', name: 'snare', times: 12, of: 20, db: 3 }),
      share(12, 20),
      share(1, 24),
      'Snare ghosts too loud: 1 of 24, was 12 of 20.',
    ],
    [
      finding('wrong voice', 0, [], {
        written: 'floor tom',
        struck: 'high tom',
        times: 12,
        name: undefined,
      }),
      share(12, 20),
      share(1, 24),
      'High tom struck for floor tom: 1 of 24, was 12 of 20.',
    ],
    [
      finding('own notes wrong', 0, [], { layerName: 'Toms', how: 'missed', times: 12, of: 20 }),
      share(12, 20),
      share(1, 24),
      '“Toms”: 1 of 24 notes not as written, was 12 of 20.',
    ],
    [
      finding('swing', 0, [], { played: 1.5, written: 2, sure: SURE }),
      { kind: 'swing', ratio: 1.52 },
      { kind: 'swing', ratio: 1.84 },
      'Swing 1.8 to 1, was 1.5.',
    ],
  ] as const)('%#', (told, before, after, text) => {
    expect(otherWords(told, here(before), here(after))).toBe(text);
  });

  it('names the tempi where they are not the same', () => {
    expect(otherWords(left, here(placing(14), '96'), here(placing(9), '88'))).toBe(
      'Left hand 9 ms late at 88, was 14 at 96.',
    );
    expect(sameWords(left, here(placing(14), '96'), here(placing(13), '88'))).toBe(
      'Left hand 13 ms late at 88, about the same as before at 96.',
    );
  });

  it('says that it is the same, or that nothing can be said', () => {
    expect(sameWords(left, here(placing(14)), here(placing(13)))).toBe(
      'Left hand 13 ms late, about the same as before.',
    );
    expect(openWords(left)).toBe('Left hand: not enough strokes to say what changed.');
    expect(openWords(finding('position off', 0, [], { ...PLACING, name: 'position 14' }))).toBe(
      'Position 14: not enough strokes to say what changed.',
    );
  });

  it('never says the same of two findings about the same notes', () => {
    const name = 'left hand';
    const facts = { name, times: 12, of: 20 };
    const of = (level: 'ghost' | 'accent') => ({ level, name: undefined, times: 9, of: 20, db: 3 });
    const told = [
      left,
      finding('spread apart', 0, [], { name, ms: 22, restMs: 11 }),
      finding('missed', 0, [], facts),
      finding('level off', 0, [], { ...PLACING, name: 'ghosts' }),
      finding('too loud', 0, [], of('ghost')),
      finding('too soft', 0, [], of('ghost')),
    ];
    expect(told.map(openWords)).toEqual([
      'Left hand: not enough strokes to say what changed.',
      'Left hand, spread: not enough strokes to say what changed.',
      'Left hand, missed: not enough strokes to say what changed.',
      'Ghosts: not enough strokes to say what changed.',
      'Ghosts, too loud: not enough strokes to say what changed.',
      'Ghosts, too soft: not enough strokes to say what changed.',
    ]);
  });
});
