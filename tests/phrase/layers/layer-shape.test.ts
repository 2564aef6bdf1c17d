import { describe, expect, it } from 'vitest';
import { layerShape } from '../../../src/phrase/layers/layer-shape';
import { layeredPhrase } from '../phrase-of';

describe('layerShape', () => {
  const phrase = layeredPhrase(
    { meter: '3/4', subdivision: 4, grouping: 'lR L K', cycle: 10, swing: '2:1' },
    [{ displace: -3 }],
    [{ subdivision: 6 }, { swing: '3:2' }],
  );
  const told = (layer: number) => {
    const { partialBeats, cycleBeats, barBeats, startBeats, swing, ...rest } = layerShape(
      phrase,
      layer,
    );
    const exact = [partialBeats, cycleBeats, barBeats, startBeats, swing!];
    return [rest.subdivision, rest.cyclePartials, ...exact.map((value) => value.toFraction())];
  };

  it('tells each layer by the changes up to it', () => {
    expect(told(1)).toEqual([4, 10, '1/4', '5/2', '3', '0', '2']);
    expect(told(2)).toEqual([4, 10, '1/4', '5/2', '3', '-3/4', '2']);
    expect(told(3)).toEqual([6, 10, '1/6', '5/3', '3', '-1/2', '3/2']);
  });

  it.each([
    ['no levels asked for', [], false, false],
    ['an accent', [{ where: { nth: [1] }, set: { level: 'accent' as const } }], true, false],
    [
      'a ghost grace note',
      [{ where: { grace: true }, set: { level: 'ghost' as const } }],
      false,
      true,
    ],
    [
      'an accent on a far partial',
      [{ accentEvery: 9, from: 8, where: { limb: 'K' as const } }],
      true,
      false,
    ],
    [
      'an accent in the pickup',
      [{ pickup: [{ partialsBefore: 1, limb: 'R' as const, level: 'accent' as const }] }],
      true,
      false,
    ],
    [
      'an accent that is silent',
      [{ where: { limb: 'K' as const }, set: { level: 'accent' as const, silent: true } }],
      false,
      false,
    ],
    [
      'a ghost made an accent',
      [
        { where: { limb: 'L' as const }, set: { level: 'ghost' as const } },
        { where: { limb: 'L' as const }, set: { level: 'accent' as const } },
      ],
      true,
      false,
    ],
  ])('%s', (_, changes, hasAccents, hasGhosts) => {
    const layered = layeredPhrase({ grouping: 'lR L K', cycle: 10 }, changes);
    expect(layerShape(layered, 2)).toMatchObject({ hasAccents, hasGhosts });
    expect(layerShape(layered, 1)).toMatchObject({ hasAccents: false, hasGhosts: false });
  });
});
