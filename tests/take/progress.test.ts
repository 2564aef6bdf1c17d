import { describe, expect, it } from 'vitest';
import { targetKey } from '../../src/phrase/layers/target-key';
import type { Player } from '../../src/take/player';
import { layerProgress, layerToPractise, progressOf } from '../../src/take/progress';
import { layeredPhrase } from '../phrase/phrase-of';

const accents = { where: { positions: [1] }, set: { level: 'accent' as const } };
const slip = layeredPhrase({ title: 'Slip' }, [accents]);
const trial = (layer: number, bpm: number, passed: boolean) => ({
  target: targetKey(slip, layer),
  bpm,
  passed,
  code: passed ? 'even' : 'limb off',
  finding: `at ${bpm}`,
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
    expect(layerProgress(progress, slip)).toMatchObject([
      { isPlayed: true, bestBpm: 92 },
      { isPlayed: true, bestBpm: undefined },
    ]);
  });

  it('keeps what stood out at each tempo, the last time first, of what somebody played', () => {
    const progress = progressOf([
      take('kit', trial(1, 96, false), trial(2, 80, true), trial(1, 92, true)),
      take('simulated player', trial(1, 140, true)),
      take('kit', trial(1, 88, true)),
    ]);
    const [first, second] = layerProgress(progress, slip);
    expect(first!.looks).toEqual([
      { bpm: 92, code: 'even', finding: 'at 92' },
      { bpm: 96, code: 'limb off', finding: 'at 96' },
      { bpm: 88, code: 'even', finding: 'at 88' },
    ]);
    expect(second!.looks).toEqual([{ bpm: 80, code: 'even', finding: 'at 80' }]);
    expect(layerProgress(progressOf([]), slip).map(({ looks }) => looks)).toEqual([[], []]);
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

describe('the layer to practise next', () => {
  it('is the first that is not passed, whatever was passed after it', () => {
    const layers = (...best: (number | undefined)[]) => best.map((bestBpm) => ({ bestBpm }));
    expect(layerToPractise(layers(undefined, undefined))).toBe(1);
    expect(layerToPractise(layers(88, undefined, 92))).toBe(2);
    expect(layerToPractise(layers(88, 92))).toBe(2);
    const progress = progressOf([take('kit', trial(1, 88, true), trial(2, 88, false))]);
    expect(layerToPractise(layerProgress(progress, slip))).toBe(2);
  });
});
