import { describe, expect, it } from 'vitest';
import { scoreContent } from '../../src/notation/score-columns';
import { phraseOf } from '../phrase/phrase-of';

describe('the columns of a score line', () => {
  it('a cycle begins where it falls in its bar, after its pickup', () => {
    const phrase = phraseOf({
      grouping: 'R L R L K',
      layers: [
        { name: 'Late', changes: [{ displace: 3 }] },
        { name: 'Pickup', changes: [{ pickup: [{ partialsBefore: 2, limb: 'R' }] }] },
      ],
    });
    const { columns, pickupColumns } = scoreContent(phrase, 2);
    expect(pickupColumns).toBe(2);
    expect(columns.map(({ position, count }) => `${position} ${count}`)).toEqual([
      '-2 &',
      '-1 a',
      '1 a',
      '2 2',
      '3 e',
      '4 &',
      '5 a',
    ]);
    expect(columns[0]!.notes.map(({ key }) => key)).toEqual(['-2/R']);
  });

  it('a cycle displaced ahead of bar 1 is shown whole', () => {
    const { columns } = scoreContent(
      phraseOf({ grouping: 'R L R L K', layers: [{ name: 'Early', changes: [{ displace: -2 }] }] }),
      1,
    );
    expect(columns.map(({ notes }) => notes[0]!.key).join(' ')).toBe('1/R 2/L 3/R 4/L 5/K');
    expect(columns[0]!.count).toBe('a');
  });

  it('grace notes belong to the hand they lead to', () => {
    const { columns } = scoreContent(phraseOf({ grouping: 'lR+K llR' }), 1);
    expect(columns.map(({ notes }) => notes.map(({ sticking }) => sticking))).toEqual([
      ['lR', 'K'],
      ['llR'],
    ]);
    expect(columns[1]!.notes[0]!.name).toBe('position 2, right hand, snare, tap, with a drag');
  });
});
