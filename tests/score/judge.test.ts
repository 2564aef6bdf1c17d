import { expect, it } from 'vitest';
import { requiredLevels } from '../../src/score/required-levels';
import { judge } from '../../src/score/judge';
import { due } from './cases';

it('reads verdict, offset and level of every note off the matching, and the extra strokes', () => {
  const notes = [
    due(0, { level: 'accent' }),
    due(250, { level: 'ghost' }),
    due(500, { voice: 'ride' }),
    due(750),
    due(1000),
    due(1250),
  ];
  const strokes = [
    { timeUs: -35_000, voice: 'snare', velocity: 94, pad: 38 },
    { timeUs: 250_000, voice: 'snare', velocity: 70, pad: 40 },
    { timeUs: 400_000, voice: 'bass drum', velocity: 90, pad: 36 },
    { timeUs: 510_000, voice: 'crash', velocity: 100, pad: 49 },
    { timeUs: 714_999, voice: 'snare', velocity: 60, pad: 38 },
    { timeUs: 1_035_001, voice: 'snare', velocity: 40, pad: 38 },
  ] as const;
  const { notes: judged, extras } = judge(
    notes,
    strokes,
    {
      strokeOfNote: Int32Array.of(0, 1, 3, 4, 5, -1),
      noteOfStroke: Int32Array.of(0, 1, -1, 2, 3, 4),
    },
    (pad) => (pad === 40 ? { ghostMax: 75, accentMin: 100 } : { ghostMax: 50, accentMin: 95 }),
    requiredLevels(notes),
  );
  expect(judged.map((j) => [j.verdict, j.offsetUs, j.levelVerdict])).toEqual([
    ['in time', -35_000, 'too soft'],
    ['in time', 0, 'as written'],
    ['wrong voice', 10_000, 'too loud'],
    ['early', -35_001, 'as written'],
    ['late', 35_001, 'too soft'],
    ['missed', undefined, undefined],
  ]);
  expect(judged.map((j) => j.due)).toEqual(notes);
  expect(judged[5]!.stroke).toBeUndefined();
  expect(extras).toEqual([strokes[2]]);
});

it('asks for the levels a layer writes, layer by layer', () => {
  const asks = requiredLevels([
    due(0, { layer: 1 }),
    due(1, { layer: 2, level: 'accent' }),
    due(2, { layer: 3, level: 'accent' }),
    due(3, { layer: 3, level: 'ghost' }),
    due(4, { layer: 3 }),
  ]);
  expect([1, 2, 3, 4].map(asks)).toEqual([
    { accents: false, ghosts: false },
    { accents: true, ghosts: false },
    { accents: true, ghosts: true },
    { accents: false, ghosts: false },
  ]);
});
