import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { arbitraryPhrase } from './arbitrary-phrase';

it('the generated phrases hold every kind of change, and often', () => {
  const phrases = fc.sample(arbitraryPhrase(), { numRuns: 300, seed: 7 });
  const counts = new Map<string, number>();
  for (const { kind } of phrases.flatMap((p) => p.layers.flatMap((layer) => layer.changes)))
    counts.set(kind, (counts.get(kind) ?? 0) + 1);
  for (const kind of ['set', 'pickup', 'accentEvery', 'displace', 'subdivision', 'swing', 'add'])
    expect(counts.get(kind), kind).toBeGreaterThan(20);
  expect(phrases.filter((phrase) => phrase.swing !== undefined).length).toBeGreaterThan(20);
  expect(
    phrases.filter((phrase) => phrase.cycle % phrase.grouping.length !== 0).length,
  ).toBeGreaterThan(50);
});
