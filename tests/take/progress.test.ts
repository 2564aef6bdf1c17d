import { describe, expect, it } from 'vitest';
import { targetKey } from '../../src/phrase/layers/target-key';
import type { Player } from '../../src/take/player';
import { layerProgress, progressOf } from '../../src/take/progress';
import { layeredPhrase } from '../phrase/phrase-of';

const accents = { where: { positions: [1] }, set: { level: 'accent' as const } };
const slip = layeredPhrase({ title: 'Slip' }, [accents]);
const trial = (layer: number, bpm: number, passed: boolean) => ({
  target: targetKey(slip, layer),
  bpm,
  passed,
});
const take = (player: Player | undefined, ...trials: ReturnType<typeof trial>[]) => ({
  player,
  trials,
});

describe('progress', () => {
  it('is the quickest tempo that a layer was passed at, by somebody', () => {
    const progress = progressOf([
      take('kit', trial(1, 88, true), trial(2, 88, false)),
      take('keyboard and pads', trial(1, 92, true)),
      take('kit', trial(1, 120, false)),
      take('simulated player', trial(1, 140, true), trial(2, 140, true)),
      take('file', trial(2, 150, true)),
      take(undefined, trial(2, 160, true)),
      { player: 'kit' },
    ]);
    expect(layerProgress(progress, slip)).toEqual([
      { isPlayed: true, bestBpm: 92 },
      { isPlayed: true, bestBpm: undefined },
    ]);
  });

  it('belongs to what is to be played: renamed and copied it stays, an edit drops what it changes', () => {
    const progress = progressOf([take('kit', trial(1, 88, true), trial(2, 88, true))]);
    const best = (phrase: typeof slip) =>
      layerProgress(progress, phrase).map(({ bestBpm }) => bestBpm);
    expect(best(layeredPhrase({ title: 'Slip 2' }, [accents]))).toEqual([88, 88]);
    const edited = { ...accents, where: { positions: [2] } };
    expect(best(layeredPhrase({ title: 'Slip' }, [edited]))).toEqual([88, undefined]);
  });
});
