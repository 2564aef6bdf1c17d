import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { Autosave } from '../../../src/practice/compose/autosave.svelte';
import { UnsavedEdits } from '../../../src/practice/compose/unsaved-edits';
import { STORE_MESSAGES, storeProblem, type StoreProblem } from '../../../src/store/store-problem';
import { bad, good, type Result } from '../../../src/time/result';
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
  const setting = { noted: undefined as unknown };
  const unsaved = new UnsavedEdits({
    read: <T>(_name: string, _shape: unknown, fallback: T) => (setting.noted as T) ?? fallback,
    write: (_name, value) => (setting.noted = value),
  });
  const library = {
    save: async (_id: string, { draft }: DraftCheck) => {
      saved.push(draft.title);
      return results.shift() ?? good(undefined);
    },
  };
  const onKept = vi.fn();
  const keeper = new Autosave('own-1', kept, { library, unsaved, onKept });
  return { keeper, saved, results, unsaved, onKept };
}

describe('keeping what is written', () => {
  it('notes an edit at once and writes it once the hand rests', async () => {
    const { keeper, saved, unsaved } = autosave();
    keeper.keepSoon(titled('T'));
    expect(Object.keys(unsaved.all)).toEqual(['own-1']);
    await vi.advanceTimersByTimeAsync(249);
    keeper.keepSoon(titled('Ti'));
    await vi.advanceTimersByTimeAsync(249);
    expect(saved).toEqual([]);
    await vi.advanceTimersByTimeAsync(1);
    expect(saved).toEqual(['Ti']);
    expect(unsaved.all).toEqual({});
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
    expect(Object.keys(unsaved.all)).toEqual(['own-1']);
    keeper.keepSoon(titled('Tides'));
    await keeper.flush();
    expect(keeper.problem).toBeUndefined();
    expect(unsaved.all).toEqual({});
  });

  it('leaves the note of a newer edit when an older one is written', async () => {
    const { keeper, unsaved } = autosave();
    keeper.keepSoon(titled('Tide'));
    const written = keeper.flush();
    keeper.keepSoon(titled('Tides'));
    await written;
    expect(unsaved.all['own-1']).toContain('Tides');
  });

  it('tells once that a new phrase is in the library, after its first edit', async () => {
    const { keeper, onKept } = autosave({ kept: false });
    expect(keeper.kept).toBe(false);
    for (const title of ['Tide', 'Tides']) {
      keeper.keepSoon(titled(title));
      await keeper.flush();
    }
    expect(keeper.kept).toBe(true);
    expect(onKept.mock.calls).toEqual([['own-1']]);
  });

  it('keeps a new phrase that nobody has edited, and one that is kept only once', async () => {
    const { keeper, saved, onKept } = autosave({ kept: false });
    await keeper.keep(titled('Tide'));
    await keeper.keep(titled('Tide'));
    expect(saved).toEqual(['Tide']);
    expect(onKept).toHaveBeenCalledOnce();
  });
});
