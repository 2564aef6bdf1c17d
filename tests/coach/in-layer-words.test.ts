import { expect, it } from 'vitest';
import { inLayerWords } from '../../src/coach/in-layer-words';
import { harbourNotes, harbourPlan, judged } from './practice-take';

const { phrase } = harbourPlan();
const played = (...layers: readonly number[]) =>
  judged(
    layers.flatMap((layer) => harbourNotes(1, layer).map((due) => ({ ...due, layer }))),
    [],
  );

it('says of which layer it is where there are several', () => {
  expect(inLayerWords({ phrase }, played(1, 2))).toBe('In layer 2, Dynamics, played last:');
  expect(inLayerWords({ phrase }, played(2, 1))).toBe('In layer 1, Sticking, played last:');
});

it('says nothing where there is one, or none', () => {
  expect(inLayerWords({ phrase }, played(2))).toBeUndefined();
  expect(inLayerWords({ phrase }, played())).toBeUndefined();
});
