import { deleteDB } from 'idb';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { writeKit } from '../../../src/kit/parse-kit';
import { OwnKits } from '../../../src/practice/inputs/own-kits.svelte';
import { PracticeDatabase } from '../../../src/store/database';
import { kitStore } from '../../../src/store/own-text-store';
import type { OwnText } from '../../../src/store/tables';
import { good } from '../../../src/time/result';

/** Kits over a store that holds these texts. */
function shelf(...texts: Pick<OwnText, 'id' | 'title' | 'text'>[]) {
  const records = new Map(texts.map((text) => [text.id, { v: 1, savedAt: '', ...text }]));
  const damaged: string[] = [];
  const kits = new OwnKits({
    put: async (text) => {
      records.set(text.id, { v: 1, savedAt: '', ...text });
      return good(undefined);
    },
    list: async () => ({ texts: [...records.values()], problem: undefined }),
    remove: async (id) => {
      records.delete(id);
      return good(undefined);
    },
    setAside: ({ id }) => void damaged.push(id),
  });
  return { kits, records, damaged };
}
const titles = (kits: OwnKits) => kits.all.map(({ title }) => title);
const record = (id: string, title: string) => ({
  id,
  title,
  text: writeKit({ ...GENERAL_MIDI, title }),
});

describe('the player’s own kits', () => {
  it('cannot take the name of one that comes with the app', async () => {
    const { kits, records } = shelf();
    for (const { title } of [GENERAL_MIDI, EDGE_AND_RIM]) {
      const saved = await kits.save({ ...EDGE_AND_RIM, title });
      expect(saved.ok === false && saved.errors[0]!.code).toBe('NAME_TAKEN');
    }
    expect(records.size).toBe(0);
  });

  it('of names that are there already are given others, and can be changed and removed', async () => {
    const { kits, records } = shelf(
      record('a', GENERAL_MIDI.title),
      record('b', 'Boathouse'),
      record('c', 'Boathouse'),
    );
    await kits.load();
    const own = [`${GENERAL_MIDI.title}, 2`, 'Boathouse', 'Boathouse, 2'];
    expect(titles(kits)).toEqual([EDGE_AND_RIM.title, GENERAL_MIDI.title, ...own]);
    expect((await kits.save({ ...GENERAL_MIDI, title: 'Boathouse, 2' })).ok).toBe(true);
    expect([...records.keys()]).toEqual(['a', 'b', 'c']);
    await kits.remove(kits.called(own[0]!));
    expect([...records.keys()]).toEqual(['b', 'c']);
  });

  it('that are none are set aside, and hide no other', async () => {
    const { kits, damaged } = shelf(
      { id: 'x', title: 'Wreck', text: '{' },
      record('b', 'Boathouse'),
    );
    await kits.load();
    expect(titles(kits)).toContain('Boathouse');
    expect(damaged).toEqual(['x']);
  });
});

it('learned in two tabs under one title are both kept', async () => {
  await deleteDB('kits-in-two-tabs');
  const tab = () => new OwnKits(kitStore(new PracticeDatabase({ name: 'kits-in-two-tabs' })));
  const [first, second, later] = [tab(), tab(), tab()];
  await Promise.all([first.load(), second.load()]);
  const [few, many] = [3, 6].map((count) => ({
    ...GENERAL_MIDI,
    title: 'Boathouse',
    pads: GENERAL_MIDI.pads.slice(0, count),
  }));
  expect(await first.save(few!)).toEqual({ ok: true, value: few });
  const saved = await second.save(many!);
  expect(saved).toEqual({ ok: true, value: { ...many!, title: 'Boathouse, 2' } });
  await later.load();
  expect(later.called('Boathouse').pads).toEqual(few!.pads);
  expect(later.called('Boathouse, 2').pads).toEqual(many!.pads);
});
