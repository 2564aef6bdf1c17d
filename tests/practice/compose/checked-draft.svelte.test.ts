import { describe, expect, it } from 'vitest';
import { CheckedDraft } from '../../../src/practice/compose/checked-draft.svelte';
import type { LayerFile } from '../../../src/phrase/model/phrase-file';
import { draftFrom } from '../../phrase/draft-from';

const HEAD = { title: 'Tide table', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K' };
const STICKING: LayerFile = { name: 'Sticking' };
const LOW: LayerFile = {
  name: 'Low',
  changes: [{ where: { limb: 'R' }, set: { voice: 'floor tom' } }],
};
const WRONG: LayerFile = {
  name: 'Nowhere',
  changes: [{ where: { positions: [9] }, set: { level: 'ghost' } }],
};

const draft = (...layers: LayerFile[]) => draftFrom({ ...HEAD, layers });

const seen = ({ shown }: CheckedDraft) => shown && [shown.layer, shown.current];

describe('a draft that is written on', () => {
  it('shows the layer that is edited', () => {
    const checked = new CheckedDraft(draft(STICKING, LOW), 2);
    expect(checked.check.errors).toEqual([]);
    expect(checked.good?.layers).toHaveLength(2);
    expect(seen(checked)).toEqual([2, true]);
    expect(checked.shown!.phrase.layers).toHaveLength(2);
  });

  it('shows a right layer under a wrong one as it is written now', () => {
    const checked = new CheckedDraft(draft(STICKING, LOW, WRONG), 2);
    expect(checked.good).toBeUndefined();
    expect(seen(checked)).toEqual([2, true]);
  });

  it('shows what was right last where the layer that is edited is wrong', () => {
    const checked = new CheckedDraft(draft(STICKING, LOW), 2);
    const before = checked.good;
    checked.take(draft(STICKING, WRONG), 2);
    expect(checked.good).toBe(before);
    expect(checked.check.errors.map(({ place }) => place)).toEqual([
      'layers[1].changes[0].where.positions[0]',
    ]);
    expect(seen(checked)).toEqual([2, false]);
    expect(checked.shown!.phrase).toBe(before);
  });

  it('shows the highest layer that was right last where more are edited', () => {
    const checked = new CheckedDraft(draft(STICKING, LOW), 2);
    checked.take(draft(STICKING, LOW, WRONG), 3);
    expect(seen(checked)).toEqual([2, false]);
  });

  it('shows the nearest right layer below where nothing was right yet', () => {
    const checked = new CheckedDraft(draft(STICKING, LOW, WRONG), 3);
    expect(seen(checked)).toEqual([2, false]);
  });

  it('shows nothing where the sticking itself is wrong from the start', () => {
    const checked = new CheckedDraft(
      draftFrom({ ...HEAD, grouping: 'R ?', layers: [STICKING] }),
      1,
    );
    expect([checked.good, checked.shown]).toEqual([undefined, undefined]);
  });

  it('is right again once the fault is taken out', () => {
    const checked = new CheckedDraft(draft(STICKING, WRONG), 2);
    checked.take(draft(STICKING, LOW), 2);
    expect(checked.good?.layers[1]!.name).toBe('Low');
    expect(seen(checked)).toEqual([2, true]);
  });
});
