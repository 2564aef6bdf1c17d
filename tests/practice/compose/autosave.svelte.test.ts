import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { Autosave } from '../../../src/practice/compose/autosave.svelte';
import { UnsavedEdits } from '../../../src/practice/compose/unsaved-edits';
import { STORE_MESSAGES, storeProblem, type StoreProblem } from '../../../src/store/store-problem';
import { bad, good, type Result } from '../../../src/time/result';
import { SettingsStore } from '../../../src/store/settings-store';
import { NO_OTHER_TABS } from './no-other-tabs';
import { draftFrom } from '../../phrase/draft-from';

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

const titled = (title: string) =>
  new DraftCheck(
    draftFrom({
      title,
      meter: '4/4',
      tempoBpm: 90,
      subdivision: 4,
      grouping: 'R L',
      layers: [{ name: 'Sticking' }],
    }),
  );

function autosave({ kept = true } = {}) {
  const saved: string[] = [];
  const results: Result<void, StoreProblem>[] = [];
  const unsaved = new UnsavedEdits(new SettingsStore(null), NO_OTHER_TABS);
  const library = {
    save: async (_id: string, { draft }: DraftCheck) => {
      saved.push(draft.title);
      return results.shift() ?? good(undefined);
    },
    storedText: () => 'as it was',
  };
  const onChangedElsewhere = vi.fn();
  const keeper = new Autosave('own-1', kept, { library, unsaved, onChangedElsewhere });
  return { keeper, saved, results, unsaved, onChangedElsewhere };
}

describe('keeping what is written', () => {
  it('notes an edit at once and writes it once the hand rests', async () => {
    const { keeper, saved, unsaved } = autosave();
    keeper.keepSoon(titled('T'));
    expect(unsaved.all).toMatchObject([{ id: 'own-1', base: 'as it was' }]);
    await vi.advanceTimersByTimeAsync(249);
    keeper.keepSoon(titled('Ti'));
    await vi.advanceTimersByTimeAsync(249);
    expect(saved).toEqual([]);
    await vi.advanceTimersByTimeAsync(1);
    expect(saved).toEqual(['Ti']);
    expect(unsaved.all).toEqual([]);
  });

  it('writes at once when it is asked to, and not again', async () => {
    const { keeper, saved } = autosave();
    keeper.keepSoon(titled('Tide'));
    await keeper.flush();
    await vi.runAllTimersAsync();
    expect(saved).toEqual(['Tide']);
  });

  it('has nothing to write where nothing was edited', async () => {
    const { keeper, saved } = autosave();
    await keeper.flush();
    expect(saved).toEqual([]);
  });

  it('says why an edit is only in memory, has it noted, and forgets both when it is written', async () => {
    const { keeper, results, unsaved } = autosave();
    results.push(bad(storeProblem('FULL')));
    keeper.keepSoon(titled('Tide'));
    await keeper.flush();
    expect(keeper.problem).toBe(STORE_MESSAGES.FULL);
    expect(unsaved.all).toMatchObject([{ id: 'own-1' }]);
    keeper.keepSoon(titled('Tides'));
    await keeper.flush();
    expect(keeper.problem).toBeUndefined();
    expect(unsaved.all).toEqual([]);
  });

  it('leaves the note of a newer edit when an older one is written', async () => {
    const { keeper, unsaved } = autosave();
    keeper.keepSoon(titled('Tide'));
    const written = keeper.flush();
    keeper.keepSoon(titled('Tides'));
    await written;
    expect(unsaved.all).toMatchObject([{ text: expect.stringContaining('Tides') as string }]);
  });

  it('says that a new phrase is kept from its first edit on', () => {
    const { keeper } = autosave({ kept: false });
    expect(keeper.kept).toBe(false);
    keeper.keepSoon(titled('Tide'));
    expect(keeper.kept).toBe(true);
  });

  it('tells that another tab has changed it, and keeps all of it under another id', async () => {
    const { keeper, results, saved, unsaved, onChangedElsewhere } = autosave();
    onChangedElsewhere.mockImplementation(() => keeper.keepAs('own-2', titled('Tide, 2')));
    results.push(bad(storeProblem('CHANGED')));
    keeper.keepSoon(titled('Tide'));
    const written = keeper.flush();
    await Promise.resolve();
    expect(saved).toEqual(['Tide']);
    await written;
    expect(onChangedElsewhere).toHaveBeenCalledOnce();
    expect([saved, keeper.id, keeper.problem]).toEqual([['Tide', 'Tide, 2'], 'own-2', undefined]);
    expect(unsaved.all).toEqual([]);
  });

  it('keeps a new phrase that nobody has edited, and one that is kept only once', async () => {
    const { keeper, saved } = autosave({ kept: false });
    await keeper.keep(titled('Tide'));
    await keeper.keep(titled('Tide'));
    expect(saved).toEqual(['Tide']);
  });
});
