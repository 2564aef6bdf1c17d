import axe from 'axe-core';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { render } from 'vitest-browser-svelte';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { scoreContent } from '../../../src/notation/score-columns';
import ScoreLine from '../../../src/view/score/ScoreLine.svelte';
import { loadLaneFonts } from '../../../src/view/theme/notation-font';
import '../../../src/view/theme/theme.css';
import quaySteps from '../../../shared/phrases/quay-steps.json?raw';

const parsed = parsePhrase(quaySteps);
if (!parsed.ok) throw new Error('Quay Steps cannot be read');
const phrase = parsed.value;
const NONE = new Set<string>();
const still = { phrase, layer: 5, selected: NONE, changed: NONE };

afterEach(() => {
  delete document.documentElement.dataset['theme'];
});

describe('the score line as a picture', () => {
  it('says all of it in words, and has no buttons', async () => {
    await render(ScoreLine, still);
    const picture = page.getByRole('img', { name: /^Score line, layer 5/ });
    await expect.element(picture).toBeVisible();
    const notes = scoreContent(phrase, 5).columns.flatMap((column) => column.notes);
    // Twenty strokes of the cycle, and two of the pickup.
    expect(notes).toHaveLength(22);
    expect(picture.element().getAttribute('aria-label')).toContain(
      notes.map(({ name }) => name).join('; '),
    );
    expect(page.getByRole('button').elements()).toEqual([]);
  });

  it('wraps where there is little room, and shows as many notes', async () => {
    const heads = (container: Element) => container.querySelectorAll('.head').length;
    const wide = await render(ScoreLine, still);
    await expect.poll(() => heads(wide.container)).toBe(22);
    await loadLaneFonts();
    wide.container.style.width = '340px';
    await expect.poll(() => wide.container.querySelector('svg')!.clientWidth).toBe(340);
    expect(wide.container.querySelectorAll('svg').length).toBeGreaterThan(2);
    expect(heads(wide.container)).toBe(22);
    for (const svg of wide.container.querySelectorAll('svg'))
      expect(svg.getBBox().x + svg.getBBox().width).toBeLessThanOrEqual(341);
  });
});

describe('the score line with notes to choose', () => {
  it('is walked by arrow keys from one stop, and each note is a button that says what it is', async () => {
    const toggle = vi.fn();
    await render(ScoreLine, { ...still, selected: new Set(['2/L']), toggle });
    const second = page.getByRole('button', { name: 'position 2, left hand, snare, ghost' });
    await expect.element(second).toHaveAttribute('aria-pressed', 'true');
    await userEvent.tab();
    const pickup = page.getByRole('button', { name: 'pickup, 2 ahead, right hand, snare, ghost' });
    await expect.element(pickup).toHaveFocus();
    await userEvent.keyboard('{ArrowRight}{ArrowRight}{ArrowRight}');
    await expect.element(second).toHaveFocus();
    await userEvent.keyboard(' {End}{Enter}');
    expect(toggle.mock.calls).toEqual([['2/L'], ['20/K']]);
    await userEvent.tab();
    expect(document.activeElement?.closest('[data-testid="score-line"]')).toBeNull();
  });

  it('takes a press of the pointer', async () => {
    const toggle = vi.fn();
    await render(ScoreLine, { ...still, toggle });
    await page.getByRole('button', { name: /^position 5, right foot/ }).click();
    expect(toggle.mock.calls).toEqual([['5/K']]);
  });

  it('marks chosen, changed and other notes by shape, and says so', async () => {
    const { container } = await render(ScoreLine, {
      ...still,
      selected: new Set(['1/R']),
      changed: new Set(['2/L', '4/L']),
      marked: new Set(['5/K']),
      markedAs: 'too fast',
      toggle: () => undefined,
    });
    const shapes = (name: string) =>
      [...container.querySelectorAll(`rect.${name}`)].map((rect) =>
        rect.closest('[data-note]')?.getAttribute('data-note'),
      );
    await expect.poll(() => shapes('chosen')).toEqual(['1/R']);
    expect(shapes('changed')).toEqual(['2/L', '4/L']);
    expect(shapes('marked')).toEqual(['5/K']);
    await expect
      .element(page.getByRole('button', { name: 'position 4, left hand, high tom, tap, changed' }))
      .toBeVisible();
    await expect.element(page.getByRole('button', { name: /position 5.*too fast$/ })).toBeVisible();
  });

  it('has a frame round what is heard, and none in silence', async () => {
    let beat: number | undefined = -0.25;
    const line = await render(ScoreLine, { ...still, beatNow: () => beat });
    const framed = () => {
      const frame = line.container.querySelector('.sounding')?.getBoundingClientRect();
      if (!frame) return undefined;
      const middle = frame.x + frame.width / 2;
      return [...line.container.querySelectorAll('[data-note] .letter')]
        .filter((letter) => {
          const { x, width, y } = letter.getBoundingClientRect();
          return Math.abs(x + width / 2 - middle) < 8 && y > frame.y && y < frame.bottom;
        })
        .map((letter) => letter.closest('[data-note]')?.getAttribute('data-note'));
    };
    await expect.poll(framed).toEqual(['-1/L']);
    beat = 0.25;
    await expect.poll(framed).toEqual(['2/L']);
    beat = 5.75;
    await expect.poll(framed).toEqual(['4/L']);
    beat = undefined;
    await expect.poll(framed).toBeUndefined();
    beat = 0;
    await expect.poll(framed).toEqual(['1/R']);
    await line.rerender({ ...still, beatNow: undefined });
    await expect.poll(framed).toBeUndefined();
  });

  it('on one line is as long as it is, and brings what is heard into its frame', async () => {
    let beat = 0;
    const { container } = await render(ScoreLine, {
      ...still,
      toggle: () => undefined,
      oneLine: true,
      beatNow: () => beat,
    });
    container.style.width = '356px';
    await expect.poll(() => container.querySelectorAll('svg').length).toBe(1);
    const frame = page.getByTestId('score-line').element();
    await expect.poll(() => frame.clientWidth).toBe(356);
    expect(frame.scrollWidth).toBeGreaterThan(700);
    expect(container.querySelector('.zone')!.getBoundingClientRect().width).toBeGreaterThanOrEqual(
      24,
    );
    const isSeen = () => {
      const mark = container.querySelector('.sounding')?.getBoundingClientRect();
      const { left, right } = frame.getBoundingClientRect();
      return mark !== undefined && mark.left >= left - 1 && mark.right <= right + 1;
    };
    for (beat of [0, 4.75, 2, 0.25]) {
      await expect.poll(isSeen).toBe(true);
    }
  });

  it.each(['light', 'dark'])('axe finds nothing, %s', async (theme) => {
    document.documentElement.dataset['theme'] = theme;
    const { container } = await render(ScoreLine, {
      ...still,
      selected: new Set(['1/R']),
      toggle: () => undefined,
    });
    await expect.poll(() => container.querySelectorAll('[role="button"]').length).toBe(22);
    const found = await axe.run(container);
    expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });
});
