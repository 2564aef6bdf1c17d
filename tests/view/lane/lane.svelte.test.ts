import axe from 'axe-core';
import { flushSync } from 'svelte';
import { afterEach, describe, expect, it } from 'vitest';
import { cdp, page, userEvent } from 'vitest/browser';
import { render } from 'vitest-browser-svelte';
import Lane from '../../../src/view/lane/Lane.svelte';
import LaneTable from '../../../src/view/lane/LaneTable.svelte';
import { placeInWords } from '../../../src/view/lane/scroll-steps';
import { loadLaneFonts } from '../../../src/view/theme/notation-font';
import '../../../src/view/theme/theme.css';
import { emptyFeed, ferryFeed } from '../demo-feed';

const frames = (count: number) =>
  new Promise<void>((done) => {
    const next = (left: number) =>
      left === 0 ? done() : void requestAnimationFrame(() => next(left - 1));
    next(count);
  });

const canvasOf = (container: Element) => container.querySelector('canvas')!;
const picture = (container: Element) => canvasOf(container).toDataURL();

async function settle() {
  flushSync();
  await loadLaneFonts();
  await frames(3);
}

const media = (features: { name: string; value: string }[]) =>
  (cdp() as unknown as { send(method: string, args: object): Promise<void> }).send(
    'Emulation.setEmulatedMedia',
    { features },
  );

afterEach(async () => {
  delete document.documentElement.dataset['theme'];
  await media([]);
});

const still = { nowUs: () => 3_350_000, running: false, label: 'Ferry Five, layer 3' };

describe('Lane', () => {
  it('is a labelled picture with something on it', async () => {
    const { container } = await render(Lane, { ...still, feed: ferryFeed() });
    await settle();
    await expect.element(page.getByRole('img', { name: 'Ferry Five, layer 3' })).toBeVisible();
    const blank = document.createElement('canvas');
    blank.width = canvasOf(container).width;
    blank.height = canvasOf(container).height;
    expect(picture(container)).not.toBe(blank.toDataURL());
  });

  it('draws frame after frame while running and rests when stopped', async () => {
    let now = 1_000_000;
    const props = { ...still, feed: ferryFeed(), nowUs: () => (now += 50_000), running: true };
    const view = await render(Lane, props);
    await settle();
    const before = picture(view.container);
    await frames(2);
    expect(picture(view.container)).not.toBe(before);
    await view.rerender({ ...props, running: false });
    await settle();
    const rest = picture(view.container);
    const asked = now;
    await frames(3);
    expect(picture(view.container)).toBe(rest);
    expect(now).toBe(asked);
  });

  it('stops asking for frames when it is taken away', async () => {
    let asked = 0;
    const view = await render(Lane, {
      ...still,
      feed: ferryFeed(),
      nowUs: () => ++asked * 1000,
      running: true,
    });
    await settle();
    await view.unmount();
    const last = asked;
    await frames(3);
    expect(asked).toBe(last);
  });

  it('scrolls a finished take with the keyboard, by beats and bars', async () => {
    const { container } = await render(Lane, { ...still, feed: ferryFeed() });
    await settle();
    const before = picture(container);
    const place = page.getByRole('slider', { name: 'Place in the take' });
    (place.element() as HTMLElement).focus();
    await userEvent.keyboard('{ArrowLeft}');
    expect(place.element().getAttribute('aria-valuetext')).toBe('bar 2, beat 2');
    await userEvent.keyboard('{PageUp}');
    expect(place.element().getAttribute('aria-valuetext')).toBe('bar 3, beat 1');
    await settle();
    expect(picture(container)).not.toBe(before);
  });

  it('rests where the take stopped, though that was before its first note', async () => {
    const feed = ferryFeed();
    const props = { ...still, feed, nowUs: () => -1_700_000 };
    const { container } = await render(Lane, props);
    await settle();
    const slider = container.querySelector('input')!;
    expect(slider.valueAsNumber).toBe(-1_700_000);
    expect(slider.getAttribute('aria-valuetext')).toBe(placeInWords(feed.marks, -1_700_000));
    slider.focus();
    await userEvent.keyboard('{ArrowRight}');
    expect(slider.getAttribute('aria-valuetext')).toBe('bar 1, beat 1');
    await userEvent.keyboard('{Home}');
    expect(slider.valueAsNumber).toBe(-1_700_000);
  });

  it('scrolls with the wheel and by dragging, and not while running', async () => {
    const view = await render(Lane, { ...still, feed: ferryFeed() });
    await settle();
    const slider = view.container.querySelector('input')!;
    const canvas = canvasOf(view.container);
    const wheel = () =>
      canvas.dispatchEvent(
        new WheelEvent('wheel', { deltaX: 120, bubbles: true, cancelable: true }),
      );
    const start = slider.valueAsNumber;
    wheel();
    flushSync();
    const wheeled = slider.valueAsNumber;
    expect(wheeled).toBeGreaterThan(start);
    const pointer = (type: string, clientX: number) =>
      canvas.dispatchEvent(new PointerEvent(type, { clientX, pointerId: 1, bubbles: true }));
    canvas.setPointerCapture = () => undefined;
    pointer('pointerdown', 500);
    pointer('pointermove', 560);
    pointer('pointerup', 560);
    flushSync();
    expect(slider.valueAsNumber).toBeLessThan(wheeled);
    await view.rerender({ ...still, feed: ferryFeed(), running: true });
    const running = slider.valueAsNumber;
    wheel();
    flushSync();
    expect(slider.valueAsNumber).toBe(running);
    expect(slider.disabled).toBe(true);
  });

  it('redraws when the theme is changed', async () => {
    document.documentElement.dataset['theme'] = 'light';
    const { container } = await render(Lane, { ...still, feed: ferryFeed() });
    await settle();
    const light = picture(container);
    document.documentElement.dataset['theme'] = 'dark';
    await settle();
    expect(picture(container)).not.toBe(light);
  });

  it('keeps the page still when the computer asks for reduced motion', async () => {
    const feed = ferryFeed();
    const moving = await render(Lane, { ...still, feed });
    await settle();
    const scrolling = picture(moving.container);
    await moving.unmount();
    await media([{ name: 'prefers-reduced-motion', value: 'reduce' }]);
    const reduced = await render(Lane, { ...still, feed });
    await settle();
    const calm = picture(reduced.container);
    await reduced.unmount();
    await media([]);
    const asked = await render(Lane, { ...still, feed, still: true });
    await settle();
    expect(calm).not.toBe(scrolling);
    expect(picture(asked.container)).toBe(calm);
  });

  it('says so when nothing is written', async () => {
    const told = page.getByRole('paragraph');
    const written = await render(Lane, { ...still, feed: ferryFeed() });
    await settle();
    expect(told.elements()).toEqual([]);
    await written.unmount();
    const { container } = await render(Lane, { ...still, feed: emptyFeed() });
    await expect.element(told).toBeVisible();
    await expect.element(told).toHaveTextContent(/\w\.$/);
    expect(container.querySelector('input')!.disabled).toBe(true);
  });
});

describe('LaneTable', () => {
  const cells = (row: Element) => [...row.children].map((cell) => cell.textContent?.trim());
  const rowAt = (container: Element, note: number) =>
    container.querySelector(`[data-testid="lane-table"] tr[data-note="${note}"]`)!;

  it('has a row for every judged note, with place, verdict, offset and loudness', async () => {
    const { container } = await render(LaneTable, { feed: ferryFeed(), version: 0 });
    const rows = container.querySelectorAll('[data-testid="lane-table"] tr[data-verdict]');
    expect(rows).toHaveLength(23);
    expect(cells(rowAt(container, 14))).toEqual([
      '1',
      '4 1/2',
      '1',
      '15',
      'bass drum',
      'right foot',
      'tap',
      'late',
      '+44.0 ms',
      'as written',
    ]);
    expect(cells(rowAt(container, 15)).slice(7)).toEqual(['early', '−48.0 ms', 'as written']);
    expect(cells(rowAt(container, 16)).slice(7)).toEqual(['missed', '–', '–']);
    expect(cells(rowAt(container, 18))[7]).toBe('wrong voice: high tom');
    expect(rowAt(container, 12).getAttribute('data-level-verdict')).toBe('too loud');
    expect(rowAt(container, 13).getAttribute('data-level-verdict')).toBe('too soft');
  });

  it('lists strokes that answer no note, and why', async () => {
    const { container } = await render(LaneTable, { feed: ferryFeed(), version: 0 });
    const rows = [...container.querySelectorAll('[data-testid="lane-extras"] tr[data-why]')];
    expect(rows.map((row) => row.getAttribute('data-why'))).toEqual([
      'extra',
      'double trigger',
      'crosstalk',
    ]);
    expect(cells(rows[0]!)).toEqual(['bar 1, beat 3 &', 'crash', '60', 'extra']);
  });

  it('keeps the last notes only, and says how many came before', async () => {
    const { container } = await render(LaneTable, { feed: ferryFeed(), version: 0, limit: 10 });
    expect(container.querySelectorAll('tr[data-verdict]')).toHaveLength(10);
    // Of 23 judged notes.
    await expect.element(page.getByTestId('lane-table-before')).toHaveTextContent(/^13\b/);
    expect(rowAt(container, 22)).not.toBeNull();
  });

  it('reads the feed again when its version changes, not before', async () => {
    const feed = ferryFeed();
    const view = await render(LaneTable, { feed, version: 0 });
    feed.noteVerdict[23] = 4;
    flushSync();
    expect(rowAt(view.container, 23)).toBeNull();
    await view.rerender({ feed, version: 1 });
    expect(rowAt(view.container, 23).getAttribute('data-verdict')).toBe('missed');
  });
});

it('axe-core finds nothing to object to, in either theme', async () => {
  const lane = await render(Lane, { ...still, feed: ferryFeed() });
  const table = await render(LaneTable, { feed: ferryFeed(), version: 0 });
  table.container.querySelector('details')!.open = true;
  for (const theme of ['light', 'dark']) {
    document.documentElement.dataset['theme'] = theme;
    await settle();
    for (const { container } of [lane, table]) {
      const { violations } = await axe.run(container, { rules: { region: { enabled: false } } });
      expect(violations.map(({ id, nodes }) => [id, nodes.map((node) => node.html)])).toEqual([]);
    }
  }
});
