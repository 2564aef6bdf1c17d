import { describe, expect, it, vi } from 'vitest';
import { kitStore, phraseStore } from '../../src/store/own-text-store';
import { freshDatabase } from './fresh-database';

const database = freshDatabase('texts-under-test');

describe('own phrases and kits', () => {
  it('come back in order of their titles, each from its own table', async () => {
    const phrases = phraseStore(database());
    await phrases.put({ id: 'b', title: 'Slack water', text: '{"a":1}' });
    await phrases.put({ id: 'a', title: 'Ebb', text: '{"a":2}' });
    await kitStore(database()).put({ id: 'k', title: 'Boathouse kit', text: '{}' });
    const { texts, problem } = await phraseStore(database()).list();
    expect(problem).toBeUndefined();
    expect(texts.map(({ title, text }) => [title, text])).toEqual([
      ['Ebb', '{"a":2}'],
      ['Slack water', '{"a":1}'],
    ]);
  });

  it('replaces a text of the same id, and removes', async () => {
    const phrases = phraseStore(database());
    await phrases.put({ id: 'a', title: 'Ebb', text: 'old' });
    await phrases.put({ id: 'a', title: 'Ebb', text: 'new' });
    expect((await phrases.list()).texts.map(({ text }) => text)).toEqual(['new']);
    expect((await phrases.remove('a')).ok).toBe(true);
    expect((await phrases.list()).texts).toEqual([]);
  });

  it('stays in memory when the disk is full', async () => {
    const phrases = phraseStore(database());
    await phrases.list();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    const stored = await phrases.put({ id: 'a', title: 'Ebb', text: 't' });
    expect(!stored.ok && stored.errors[0]?.code).toBe('FULL');
    expect((await phrases.list()).texts.map(({ title }) => title)).toEqual(['Ebb']);
  });
});
