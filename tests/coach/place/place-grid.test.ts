import { expect, it } from 'vitest';
import { PlaceGrid } from '../../../src/coach/place/place-grid';
import { harbourPlan, PARTIAL_MS } from '../practice-take';

const plan = {
  ...harbourPlan(),
  passages: [
    { fromBar: 1, layer: 1 },
    { fromBar: 3, layer: 2 },
  ],
};
const laid = (grid: PlaceGrid) =>
  Array.from({ length: grid.count }, (_, at) => [
    grid.timeUs[at],
    grid.lengthUs[at],
    grid.passage[at],
    grid.partial[at],
  ]);

it('lawSteps: the partials laid out step by step are those laid out at once, and no more', () => {
  const atOnce = new PlaceGrid();
  atOnce.extendTo(plan, 20e6, 0);
  for (const stepUs of [1000, 70_000, 3e6]) {
    const grid = new PlaceGrid();
    for (let untilUs = 0; untilUs <= 20e6; untilUs += stepUs) grid.extendTo(plan, untilUs, 0);
    grid.extendTo(plan, 20e6, 0);
    expect(laid(grid)).toEqual(laid(atOnce));
  }
});

// By eye: 156.25 ms a partial, 32 of them up to bar 3, where the count begins anew; two more than 5 s takes.
it('counts partials from where each passage begins', () => {
  const grid = new PlaceGrid();
  grid.extendTo(plan, 5e6, 0);
  expect(laid(grid).at(-1)).toEqual([34 * PARTIAL_MS * 1000, PARTIAL_MS * 1000, 1, 2]);
  expect(laid(grid)[31]).toEqual([31 * PARTIAL_MS * 1000, PARTIAL_MS * 1000, 0, 31]);
});
