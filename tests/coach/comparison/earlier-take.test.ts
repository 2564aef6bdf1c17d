import { describe, expect, it } from 'vitest';
import { earlierTake, type LogTake } from '../../../src/coach/comparison/earlier-take';

const played = (
  id: string,
  target: string,
  { bpm = 96, code = 'limb off', player = 'kit' } = {},
): LogTake => ({ id, player, trials: [{ target, bpm, code }] });

describe('the take that another is compared with', () => {
  const before = played('a', 'whole');
  const part = played('b', 'part', { bpm: 72, code: 'even' });
  const now = played('c', 'whole', { code: 'even' });

  it('is the last one of the same notes, with what was practised in between', () => {
    const older = played('0', 'whole');
    expect(earlierTake([now, part, before, older], 'c')).toEqual({
      id: 'a',
      between: [{ target: 'part', bpm: 72, code: 'even' }],
    });
  });

  it.each([
    ['nothing was practised in between', [now, before]],
    ['there is none of these notes', [now, part]],
    ['it is not in the log', [part, before]],
    ['nobody knows who played', [{ ...now, player: undefined }, part, before]],
    ['somebody else played it', [now, part, { ...before, player: 'simulated player' }]],
    ['somebody else practised', [now, { ...part, player: 'simulated player' }, before]],
  ])('is none where %s', (_, takes) => {
    expect(earlierTake(takes, 'c')).toBeUndefined();
  });

  it('of the simulated player is its own', () => {
    const own = (take: LogTake) => ({ ...take, player: 'simulated player' });
    const takes = [own(now), own(part), before, own({ ...before, id: 'own' })];
    expect(earlierTake(takes, 'c')?.id).toBe('own');
  });

  it('is none that told too little, and these count as practice', () => {
    const short = played('short', 'whole', { code: 'undecided' });
    expect(earlierTake([now, short, before], 'c')).toMatchObject({
      id: 'a',
      between: [{ target: 'whole' }],
    });
  });

  it('told another tempo, and its notes at that tempo are its practice', () => {
    const told = played('told', 'whole', { code: 'other tempo' });
    const at99 = (id: string) => played(id, 'whole', { bpm: 99, code: 'even' });
    expect(earlierTake([now, at99('second'), at99('first'), told], 'c')).toMatchObject({
      id: 'told',
      between: [{ bpm: 99 }, { bpm: 99 }],
    });
    // Nothing was practised there by another tempo.
    expect(earlierTake([now, at99('second'), before], 'c')).toBeUndefined();
    expect(earlierTake([now, told], 'c')).toBeUndefined();
    expect(earlierTake([at99('c'), told], 'c')).toBeUndefined();
  });

  it.each([
    [86.39, 'a'],
    [86.41, undefined],
  ])('at %d of 96 it is practice below nine tenths', (bpm, id) => {
    const slower = played('slower', 'whole', { bpm });
    expect(earlierTake([now, slower, before], 'c')?.id).toBe(id);
  });
});
