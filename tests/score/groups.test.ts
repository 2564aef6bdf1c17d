import { expect, it } from 'vitest';
import type { Voice } from '../../src/phrase/model/voice';
import {
  byLayer,
  byLevel,
  byLimb,
  byPosition,
  byVoice,
  extrasByVoice,
  wrongVoices,
} from '../../src/score/groups';
import { answer, due, extra } from './cases';

const notes = [
  answer(due(0, { position: 2, limb: 'K', voice: 'bass drum', layers: [1] }), { offsetMs: -4 }),
  answer(due(250, { position: 1, limb: 'R', voice: 'ride', layers: [1, 3] }), { offsetMs: 2 }),
  answer(due(500, { position: -1, limb: 'L', level: 'ghost', layers: [1, 2] }), undefined),
  answer(due(750, { position: 1, limb: 'R', voice: 'ride', layers: [1, 3] }), {
    offsetMs: 6,
    voice: 'crash',
  }),
  answer(due(900, { position: 12, limb: 'R', level: 'accent', layers: [2] }), {
    offsetMs: 40,
    velocity: 100,
  }),
];
const counts = (groups: ReadonlyMap<unknown, { count: number }>) =>
  [...groups].map(([key, { count }]) => [key, count]);

it('tells figures apart in staff, limb, level and number order', () => {
  expect(counts(byVoice(notes))).toEqual([
    ['ride', 2],
    ['snare', 2],
    ['bass drum', 1],
  ]);
  expect(counts(byLimb(notes))).toEqual([
    ['R', 3],
    ['L', 1],
    ['K', 1],
  ]);
  expect(counts(byLevel(notes))).toEqual([
    ['ghost', 1],
    ['tap', 3],
    ['accent', 1],
  ]);
  expect(counts(byPosition(notes))).toEqual([
    [-1, 1],
    [1, 2],
    [2, 1],
    [12, 1],
  ]);
});

it('counts a note for every layer that made or changed it', () => {
  expect(counts(byLayer(notes))).toEqual([
    [1, 4],
    [2, 2],
    [3, 2],
  ]);
  expect(byLayer(notes).get(3)).toMatchObject({ asWritten: 0.5, wrongVoice: 1, meanMs: 2 });
});

it('tells wrong voices by pair, most frequent first', () => {
  const struck = (voice: 'crash' | 'snare') =>
    answer(due(0, { voice: 'ride' }), { offsetMs: 0, voice });
  expect(wrongVoices([struck('snare'), struck('crash'), ...notes])).toEqual([
    { written: 'ride', struck: 'crash', count: 2 },
    { written: 'ride', struck: 'snare', count: 1 },
  ]);
});

it('tells pairs that are as frequent in staff order, the written voice first', () => {
  const pair = (written: Voice, struck: Voice) =>
    answer(due(0, { voice: written }), { offsetMs: 0, voice: struck });
  const told = wrongVoices([
    pair('bass drum', 'crash'),
    pair('snare', 'bass drum'),
    pair('snare', 'ride'),
    pair('ride', 'bass drum'),
    pair('bass drum', 'ride'),
    pair('bass drum', 'ride'),
  ]);
  expect(told.map(({ written, struck, count }) => [count, written, struck])).toEqual([
    [2, 'bass drum', 'ride'],
    [1, 'ride', 'bass drum'],
    [1, 'snare', 'ride'],
    [1, 'snare', 'bass drum'],
    [1, 'bass drum', 'crash'],
  ]);
});

it('counts extra strokes by voice in staff order', () => {
  const extras = [extra(0, 'snare'), extra(1, 'crash'), extra(2, 'snare')];
  expect([...extrasByVoice(extras)]).toEqual([
    ['crash', 1],
    ['snare', 2],
  ]);
});
