import { expect, it } from 'vitest';
import { judge } from '../../src/score/judge';
import { due, writtenLevels } from './cases';

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
    ({ pad }) => (pad === 40 ? { ghostMax: 75, accentMin: 100 } : { ghostMax: 50, accentMin: 95 }),
    writtenLevels(notes),
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
