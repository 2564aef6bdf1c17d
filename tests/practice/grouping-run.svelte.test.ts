import { expect, it } from 'vitest';
import { GroupingRun, GROUPING_REST_US } from '../../src/practice/capture/grouping-run.svelte';
import { handPage } from './hand-page';

it('a grouping is over when its player has rested, and no sooner', () => {
  const { dependencies, send, passTo, isTapped } = handPage({ nowMs: 10_000 });
  const run = new GroupingRun(dependencies);
  run.listen();
  [38, 38, 36].forEach((note, i) => send(10_000 + 300 * i, 0x99, note, 80));
  send(10_900, 0x99, 3, 80);
  passTo(10_600 + GROUPING_REST_US / 1000);
  expect([run.isListening, run.count]).toEqual([true, 3]);
  passTo(10_600 + GROUPING_REST_US / 1000 + 50);
  expect([run.isListening, isTapped()]).toEqual([false, false]);
  expect(run.found?.ok && run.found.value.text).toMatch(/K$/);
});
