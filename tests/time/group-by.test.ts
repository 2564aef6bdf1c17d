import { expect, it } from 'vitest';
import { groupBy } from '../../src/time/group-by';

it('groups keep the order of the items, and come in that of their first ones', () => {
  const words = ['paddle', 'oar', 'pier', 'oarlock'];
  expect([...groupBy(words, (word) => word[0])]).toEqual([
    ['p', ['paddle', 'pier']],
    ['o', ['oar', 'oarlock']],
  ]);
  expect(words).toEqual(['paddle', 'oar', 'pier', 'oarlock']);
});

it('leaves out what has no key, not what has a false one', () => {
  const keys = [undefined, 0, '', false] as const;
  expect([...groupBy(keys, (key) => key).keys()]).toEqual([0, '', false]);
});

it('is empty for nothing', () => expect(groupBy([], String).size).toBe(0));
