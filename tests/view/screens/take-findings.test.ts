import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { summaryOf } from '../../../src/practice/takes/take-scoring';
import type { Take } from '../../../src/take/take';
import { takeReport } from '../../../src/view/screens/log/take-report';
import { mountShell } from '../mount-shell';
import { manyFindings } from '../sample-takes';
import type { StubParts } from '../stub-parts';

/** The page of a take with many findings, and what is to be said of it. */
async function openTakePage(
  change: Partial<Take> = {},
  before: (parts: StubParts) => Promise<void> = () => Promise.resolve(),
) {
  let id = '';
  const parts = await mountShell('#log', async (parts) => {
    const { store, session } = parts;
    await before(parts);
    const take = { ...manyFindings(session.entry!), ...change };
    id = (await store.add(take, summaryOf(take)!)).summary.id;
  });
  const take = manyFindings(parts.session.entry!);
  const { findings } = takeReport(take, parts.openTake(take)!);
  location.hash = `#log/${id}`;
  await expect.element(page.getByTestId('finding').first()).toBeVisible();
  return { parts, findings, id };
}

const shown = () =>
  page
    .getByTestId('finding')
    .elements()
    .filter((one) => one.checkVisibility());
const hear = (says: string) => page.getByRole('button', { name: new RegExp(`^${says}`) });
const lane = () => page.getByRole('slider', { name: 'Place in the take' });

describe('the findings of a take', () => {
  it('are three, the first as headline, the others on request', async () => {
    const { findings } = await openTakePage();
    expect(findings.length).toBeGreaterThan(4);
    const words = (from: number, to?: number) =>
      findings.slice(from, to).map(({ text, advice }) => `${text} ${advice}`);
    await expect
      .element(page.getByRole('heading', { level: 2, name: findings[0]!.text }))
      .toBeVisible();
    await expect.element(page.getByText(findings[0]!.advice)).toBeVisible();
    const text = (one: Element) => one.textContent.trim().replace(/\s+/g, ' ');
    expect(shown().slice(1).map(text)).toEqual(words(1, 3));
    await page.getByText(`More findings (${findings.length - 3})`).click();
    expect(shown().slice(1).map(text)).toEqual(words(1));
  });

  it('say of which layer they are where the take has several', async () => {
    await openTakePage({
      passages: [
        { fromBar: 1, layer: 1 },
        { fromBar: 3, layer: 5 },
      ],
    });
    await expect
      .element(page.getByTestId('in-layer'))
      .toHaveTextContent('In layer 5, Ghosts, played last:');
  });

  it('have their numbers folded up', async () => {
    const { findings } = await openTakePage();
    const numbers = page.getByTestId('finding-detail');
    const at = findings.slice(0, 3).findIndex(({ detail }) => detail !== undefined);
    await expect.element(numbers.first()).not.toBeVisible();
    await page.getByText('Numbers').first().click();
    await expect.element(numbers.first()).toHaveTextContent(findings[at]!.detail!);
    await expect.element(numbers.first()).toBeVisible();
  });
});

describe('what the player guessed', () => {
  it('stands beside the first finding, with what was played', async () => {
    const { parts, id } = await openTakePage({ guess: 'early' });
    const summary = parts.takes.summaries.find((one) => one.id === id)!;
    const ms = Math.round(summary.trials!.at(-1)!.offsetMeanMs!);
    expect(ms).toBeGreaterThan(6);
    await expect
      .element(page.getByTestId('guessed'))
      .toHaveTextContent(`Guessed: early. Played: ${ms} ms late on average.`);
  });

  it('is not told where nobody was asked', async () => {
    await openTakePage();
    await expect.element(page.getByTestId('guessed')).not.toBeInTheDocument();
  });
});

describe('what stands out by tempo', () => {
  it('is told of a layer that was played at two tempi, over all takes', async () => {
    const { findings } = await openTakePage({}, async ({ store, session }) => {
      const take = manyFindings(session.entry!);
      const summary = summaryOf(take)!;
      const [trial] = summary.trials!;
      const even = { ...trial!, bpm: 72, code: 'even', finding: 'Even.' };
      await store.add(take, { ...summary, trials: [even] });
    });
    const { text } = findings[0]!;
    await expect
      .element(page.getByTestId('by-tempo'))
      .toHaveTextContent(
        `By tempo, all takes, layer 5: Even to 72; at 88, ${text.charAt(0).toLowerCase()}${text.slice(1)}`,
      );
  });

  it('is not told of one tempo', async () => {
    await openTakePage();
    await expect.element(page.getByTestId('trial-row')).toBeVisible();
    await expect.element(page.getByTestId('by-tempo')).not.toBeInTheDocument();
  });
});

describe('the written passage beside a finding', () => {
  it('is heard as written and slower, and stops by button and Esc', async () => {
    const { parts, findings } = await openTakePage();
    const { audition } = parts;
    const sounding = page.getByTestId('sounding').first();
    expect(sounding.element().textContent.trim()).toBe('');
    const asWritten = hear('Hear it as written').first();
    await expect
      .element(asWritten)
      .toHaveAccessibleName(new RegExp(findings[0]!.text.replace(/\.$/, '')));
    await asWritten.click();
    expect(audition.heard).toMatchObject({ bpm: 88, layer: 5, click: true });
    await expect.element(sounding).toHaveTextContent(/layer 5 as written.*at 88 bpm/);
    await expect.element(hear('Stop')).toHaveFocus();
    await userEvent.keyboard('{Enter}');
    expect(audition.key).toBeUndefined();
    await expect.poll(() => sounding.element().textContent.trim()).toBe('');

    const { fromBar } = audition.heard!;
    hear('Hear it slower').first().element().focus();
    await userEvent.keyboard(' ');
    expect(audition.heard).toMatchObject({ bpm: 66, layer: 5 });
    expect(audition.heard!.fromBar).toBe(fromBar);
    await expect.element(sounding).toHaveTextContent('at 66 bpm');
    await userEvent.keyboard('{Escape}');
    expect(audition.key).toBeUndefined();
  });

  it('is heard alone: what plays on another screen stops', async () => {
    const { parts } = await openTakePage();
    parts.session.status = 'playing';
    await hear('Hear it slower').first().click();
    await expect.poll(() => parts.audition.key).toBeDefined();
    expect(parts.session.status).toBe('idle');
  });

  it('falls silent with its page', async () => {
    const { parts } = await openTakePage();
    await hear('Hear it slower').first().click();
    expect(parts.audition.key).toBeDefined();
    location.hash = '#log';
    await expect.element(page.getByRole('heading', { name: 'Log' })).toBeVisible();
    expect(parts.audition.key).toBeUndefined();
  });

  it('is shown in the lane and the table, and no longer', async () => {
    const { findings } = await openTakePage();
    const place = lane().element() as HTMLInputElement;
    const before = place.value;
    const status = page.getByTestId('in-brackets');
    const inTable = () =>
      [...page.getByTestId('lane-table').element().querySelectorAll('tbody th')].filter((cell) =>
        cell.textContent.endsWith(', in brackets'),
      ).length;
    expect(inTable()).toBe(0);
    const show = page.getByRole('button', { name: /^Show in the lane/ }).first();
    await expect.element(show).toHaveAttribute('aria-pressed', 'false');
    await show.click();
    await expect.element(show).toHaveAttribute('aria-pressed', 'true');
    await expect.element(lane()).toHaveFocus();
    await expect.element(lane()).toBeInViewport();
    expect(place.value).not.toBe(before);
    const [, bar] = /from bar (\d+)/.exec(status.element().textContent)!;
    expect(place.getAttribute('aria-valuetext')).toMatch(new RegExp(`^bar ${bar}, beat`));
    await expect.element(status).toHaveTextContent(findings[0]!.text);
    expect(inTable()).toBe(findings[0]!.notes.length);
    await show.click();
    await expect.element(show).toHaveAttribute('aria-pressed', 'false');
    expect(inTable()).toBe(0);
    expect(status.element().textContent.trim()).toBe('');
  });

  it('stops a take that runs through', async () => {
    await openTakePage();
    await page.getByRole('button', { name: 'Play back, no sound' }).click();
    await page
      .getByRole('button', { name: /^Show in the lane/ })
      .first()
      .click();
    await expect.element(page.getByRole('button', { name: 'Play back, no sound' })).toBeVisible();
    await expect.element(lane()).toHaveFocus();
  });
});
