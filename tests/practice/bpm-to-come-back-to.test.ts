import { describe, expect, it } from 'vitest';
import { bpmToComeBackTo } from '../../src/practice/bpm-to-come-back-to';

const SLOWER = {
  phraseId: 'ebb',
  layer: 2,
  tempoBpm: 66,
  tempoToComeBack: { phraseId: 'ebb', layer: 2, bpm: 88 },
};

describe('the tempo that a layer goes on at', () => {
  it.each([
    ['slower, before a take', SLOWER, true, 88],
    ['slower, while it is played', SLOWER, false, 88],
    ['back again, before a take', { ...SLOWER, tempoBpm: 88 }, true, undefined],
    [
      'back again while it is played, where it may go slower again',
      { ...SLOWER, tempoBpm: 88 },
      false,
      88,
    ],
    ['another layer', { ...SLOWER, layer: 3 }, true, undefined],
    ['another phrase', { ...SLOWER, phraseId: 'flood' }, true, undefined],
    ['never another tempo', { ...SLOWER, tempoToComeBack: undefined }, true, undefined],
  ] as const)('%s', (_, choices, isIdle, bpm) => {
    expect(bpmToComeBackTo(choices, isIdle)).toBe(bpm);
  });
});
