import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { summaryOf } from '../../../src/practice/take-scoring';
import { takeReport } from '../../../src/view/screens/log/take-report';
import { mountShell } from '../mount-shell';
import { manyFindings } from '../sample-takes';

/** The page of a take with many findings, and what is to be said of it. */
async function openTakePage() {
  let id = '';
  const parts = await mountShell('#log', async ({ store, session }) => {
    const take = manyFindings(session.entry!);
    id = (await store.add(take, summaryOf(take)!)).summary.id;
  });
  const take = manyFindings(parts.session.entry!);
  const { findings } = takeReport(take, parts.openTake(take)!);
  location.hash = `#log/${id}`;
  await expect.element(page.getByTestId('finding').first()).toBeVisible();
  return { parts, findings };
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
    await page.getByRole('button', { name: 'Run through' }).click();
    await page
      .getByRole('button', { name: /^Show in the lane/ })
      .first()
      .click();
    await expect.element(page.getByRole('button', { name: 'Run through' })).toBeVisible();
    await expect.element(lane()).toHaveFocus();
  });
});
