import axe from 'axe-core';
import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { render } from 'vitest-browser-svelte';
import '../../../src/view/theme/theme.css';
import PlayGroupingAlone from '../PlayGroupingAlone.svelte';
import { stubParts, type StubParts } from '../stub-parts';

const FLOOR_TOM = 43;
const SNARE = 38;
const BASS_DRUM = 36;
const PARTIAL_MS = 400;
const byId = (testid: string) => page.getByTestId(testid);

async function mountPlayGrouping(prepare: (parts: StubParts) => void = () => undefined) {
  const app = stubParts('play-grouping-under-test');
  prepare(app);
  const taken: string[] = [];
  const { unmount } = await render(PlayGroupingAlone, {
    app,
    take: (text: string) => void taken.push(text),
  });
  /** Notes by partial; undefined rests. */
  const play = (notes: readonly (number | undefined)[]) => {
    const fromMs = performance.now();
    notes.forEach((note, i) => {
      if (note !== undefined) app.inputs.listener!(fromMs + i * PARTIAL_MS, 0x99, note, 80);
    });
  };
  return { ...app, taken, play, unmount };
}

describe('a grouping played on the kit', () => {
  it('is written as text, and taken when the player says so', async () => {
    const { taken, play } = await mountPlayGrouping();
    expect(byId('grouping-take').query()).toBeNull();
    await byId('grouping-listen').click();
    await expect.element(byId('grouping-told')).toHaveTextContent(/^\D+$/);
    play([SNARE, SNARE, undefined, BASS_DRUM, SNARE]);
    await expect.element(byId('grouping-told')).toHaveTextContent(/^4\b\D+$/);
    await byId('grouping-listen').click();
    await expect.element(byId('grouping-told')).toHaveTextContent(/^R L - K R\s+\w/);
    expect(taken).toEqual([]);
    await byId('grouping-take').click();
    expect(taken).toEqual(['R L - K R']);
  });

  it('has certain hands where each is on a drum of its own', async () => {
    const { taken, play } = await mountPlayGrouping();
    await page.getByRole('switch', { name: /Each hand plays a drum of its own/ }).click();
    await expect.element(page.getByLabelText('right hand on')).toHaveValue('floor tom');
    await byId('grouping-listen').click();
    play([FLOOR_TOM, FLOOR_TOM, SNARE, BASS_DRUM]);
    await byId('grouping-listen').click();
    await expect.element(byId('grouping-told')).toHaveTextContent(/^R R L K$/);
    await page.getByLabelText('right hand on').selectOptions('snare');
    await page.getByLabelText('left hand on').selectOptions('floor tom');
    await expect.element(byId('grouping-told')).toHaveTextContent(/^L L R K$/);
    await byId('grouping-take').click();
    expect(taken).toEqual(['L L R K']);
  });

  it('says what is the matter with uneven playing, and can be played again', async () => {
    const { inputs, play } = await mountPlayGrouping();
    await byId('grouping-listen').click();
    const fromMs = performance.now();
    // Partials of 200 ms: after the third stroke one and a half of them.
    for (const timeMs of [0, 200, 400, 700, 900, 1100])
      inputs.listener!(fromMs + timeMs, 0x99, SNARE, 80);
    await byId('grouping-listen').click();
    await expect.element(byId('grouping-told')).toHaveTextContent(/\b3\b.*\b1\b.*\b2\b/);
    expect(byId('grouping-take').query()).toBeNull();
    await byId('grouping-listen').click();
    play([SNARE, SNARE]);
    await byId('grouping-listen').click();
    await expect.element(byId('grouping-told')).toHaveTextContent('R L');
  });

  it('asks who plays: neither a file nor the simulated player can', async () => {
    const { inputs } = await mountPlayGrouping((parts) => {
      parts.inputs.player = 'simulated player';
    });
    expect(byId('grouping-listen').query()).toBeNull();
    inputs.choosePlayer('keyboard and pads');
    await byId('grouping-listen').click();
    await page.getByRole('button', { name: /bass drum/ }).click();
    expect(inputs.struck.map(({ voice }) => voice)).toEqual(['bass drum']);
  });

  it('has nothing that axe finds, and leaves off listening when it is closed', async () => {
    const { inputs, unmount } = await mountPlayGrouping();
    await byId('grouping-listen').click();
    expect(inputs.listener).toBeDefined();
    const found = await axe.run(byId('play-grouping').element());
    expect(found.violations.map(({ id }) => id)).toEqual([]);
    await unmount();
    expect(inputs.listener).toBeUndefined();
  });
});
