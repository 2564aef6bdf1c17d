import { describe, expect, it } from 'vitest';
import { positionColumns } from '../../src/notation/position-columns';
import { phraseOf } from '../phrase/phrase-of';

describe('the positions of a cycle', () => {
  it('carry count, sticking with graces, voice and level; a rest is empty', () => {
    const small = phraseOf({
      subdivision: 2,
      grouping: 'R - L R+K',
      cycle: 4,
      layers: [
        {
          name: 'Flam',
          changes: [{ where: { positions: [3] }, set: { grace: 'flam', level: 'accent' } }],
        },
      ],
    });
    const columns = positionColumns(small, 1);
    expect(columns.map(({ count }) => count)).toEqual(['1', '&', '2', '&']);
    expect(columns.map(({ onBeat }) => onBeat)).toEqual([true, false, true, false]);
    expect(columns[1]!.notes).toEqual([]);
    expect(columns[2]!.notes).toEqual([{ sticking: 'rL', voice: 'snare', level: 'accent' }]);
    expect(columns[3]!.notes.map(({ sticking, voice }) => [sticking, voice])).toEqual([
      ['R', 'snare'],
      ['K', 'bass drum'],
    ]);
  });

  it('are counted from where a displaced cycle starts', () => {
    const late = phraseOf({
      grouping: 'R L R L K',
      cycle: 5,
      layers: [{ name: 'Late', changes: [{ displace: 1 }] }],
    });
    expect(positionColumns(late, 1).map(({ count }) => count)).toEqual(['e', '&', 'a', '2', 'e']);
  });
});
