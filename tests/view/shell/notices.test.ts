import { tick } from 'svelte';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { summaryOf } from '../../../src/practice/takes/take-scoring';
import { AUDIO_STATES } from '../../../src/sound/audio-state';
import { storeProblem } from '../../../src/store/store-problem';
import { mountShell } from '../mount-shell';
import { simulatedTake } from '../sample-takes';

afterEach(() => {
  vi.restoreAllMocks();
  vi.useRealTimers();
});

describe('what has gone wrong', () => {
  it('stands over every screen, the same sentence once', async () => {
    const parts = await mountShell('#kit');
    const { sentence } = AUDIO_STATES.frozen;
    parts.session.problem = sentence;
    parts.audition.problem = sentence;
    const notice = page.getByTestId('notice');
    await expect.element(notice).toHaveTextContent(sentence);
    expect(notice.elements()).toHaveLength(1);
    location.hash = '#phrases';
    await expect.element(page.getByRole('heading', { level: 1, name: 'Phrases' })).toBeVisible();
    await expect.element(notice).toHaveTextContent(sentence);
  });

  it('is read aloud in turn with everything else while somebody plays', async () => {
    const { session } = await mountShell('#practise');
    const list = page.getByRole('status').filter({ has: page.getByTestId('notice') });
    session.status = 'playing';
    session.notices = ['The sound was paused in bar 3.'];
    await expect.element(list).toHaveAttribute('aria-live', 'off');
    await expect
      .element(page.getByTestId('cycle-announcement'))
      .toHaveTextContent('Playing. The sound was paused in bar 3.');
    session.status = 'idle';
    await expect.element(list).toHaveAttribute('aria-live', 'polite');
  });

  it('tells why a phrase cannot be heard', async () => {
    const parts = await mountShell('#phrases');
    const { sentence } = AUDIO_STATES.suspended;
    parts.audition.problem = sentence;
    await expect.element(page.getByTestId('notice')).toHaveTextContent(sentence);
  });

  it('tells of a second kit while the kit is played on', async () => {
    const parts = await mountShell('#practise');
    parts.inputs.port.secondKit = 'Strokes come from the pads, too, and are left out.';
    const notice = page.getByTestId('notice').getByText('left out');
    await expect.element(notice).toBeVisible();
    parts.inputs.choosePlayer('simulated player');
    await expect.element(notice).not.toBeInTheDocument();
  });

  it('keeps a take that cannot be stored where it can be opened and downloaded', async () => {
    const full = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const parts = await mountShell('#practise');
    const take = simulatedTake(parts.session.entry!, '2026-11-20T18:20:00.000Z');
    const { summary } = await parts.store.add(take, summaryOf(take)!);
    parts.session.lastTake = summary;
    await parts.takes.refresh();
    await expect
      .element(page.getByTestId('notice'))
      .toHaveTextContent(storeProblem('FULL').message);
    await expect.element(page.getByTestId('last-take')).toHaveTextContent(/^Not stored/);
    await page.getByRole('link', { name: 'Open this take' }).click();
    await expect.element(page.getByRole('button', { name: 'MIDI file' })).toBeVisible();
    location.hash = '#log';
    await expect.element(page.getByTestId('take-row')).toHaveTextContent('not stored');

    location.hash = '#practise';
    await expect.element(page.getByTestId('last-take')).toHaveTextContent(/^Not stored/);
    full.mockRestore();
    vi.advanceTimersByTime(5000);
    vi.useRealTimers();
    await expect.element(page.getByTestId('last-take')).not.toHaveTextContent(/^Not stored/);
    await expect.element(page.getByTestId('notice')).not.toBeInTheDocument();
  });
});

describe('what is told', () => {
  const SENTENCE = 'The sound was paused in bar 3.';
  const notice = page.getByTestId('notice');
  const close = page.getByRole('button', { name: 'Close this message' });

  it.each([
    [1440, 900],
    [390, 844],
  ])('moves nothing on the page and leaves the lane in sight, %i wide', async (width, height) => {
    await page.viewport(width, height);
    const { session } = await mountShell('#practise');
    await expect.element(page.getByTestId('settings')).toBeInTheDocument();
    const places = () =>
      [...document.querySelectorAll('nav, h1, canvas, [data-testid=finding], dl, table')].map(
        (one) => JSON.stringify(one.getBoundingClientRect()),
      );
    const before = places();
    session.notices = [SENTENCE, `${SENTENCE} And again.`];
    await expect.element(notice.first()).toBeVisible();
    expect(places()).toEqual(before);
    const told = page.getByRole('status').first().element().getBoundingClientRect();
    const lane = document.querySelector('canvas')!.getBoundingClientRect();
    expect(told.bottom <= lane.top || told.top >= lane.bottom).toBe(true);
    expect(told.top).toBeGreaterThanOrEqual(0);
    expect(told.bottom).toBeLessThanOrEqual(innerHeight + 1);
  });

  it('leaves lane, pads and the bar free on a phone that is played by hand', async () => {
    await page.viewport(390, 844);
    const { session } = await mountShell('#practise', ({ inputs }) => {
      inputs.choosePlayer('keyboard and pads');
    });
    await expect.element(page.getByTestId('pad').first()).toBeVisible();
    session.status = 'playing';
    await expect.element(page.getByRole('button', { name: 'Stop' })).toBeVisible();
    session.notices = [SENTENCE];
    await expect.element(notice).toBeVisible();
    const told = notice.element().getBoundingClientRect();
    const bottomOf = (one: Element) => one.getBoundingClientRect().bottom;
    for (const pad of [...page.getByTestId('pad').elements(), document.querySelector('canvas')!])
      expect(bottomOf(pad)).toBeLessThanOrEqual(told.top);
    const bar = page.getByTestId('bar').element().getBoundingClientRect();
    expect(told.bottom).toBeLessThanOrEqual(bar.top + 1);
  });

  it('can be closed, and does not come back in that take', async () => {
    const { session } = await mountShell('#practise', ({ session }) => {
      session.status = 'playing';
      session.notices = [SENTENCE];
    });
    await close.click();
    await expect.element(notice).not.toBeInTheDocument();
    session.notices = [];
    await tick();
    session.notices = [SENTENCE, 'Another.'];
    await expect.element(notice).toHaveTextContent('Another.');
  });

  it('is told again when it comes again later', async () => {
    const { session } = await mountShell('#practise', ({ session }) => {
      session.notices = [SENTENCE];
    });
    await close.click();
    await expect.element(notice).not.toBeInTheDocument();
    session.notices = [];
    await tick();
    session.notices = [SENTENCE];
    await expect.element(notice).toHaveTextContent(SENTENCE);
  });
});

describe('paper and ink', () => {
  it('are chosen, and chosen again after a reload', async () => {
    await mountShell('#kit');
    const root = document.documentElement;
    await page.getByLabelText('Theme').selectOptions('dark');
    expect(root.dataset['theme']).toBe('dark');
    const again = await mountShell('#kit');
    expect(again.theme.current).toBe('dark');
    again.theme.choose('system');
    expect(root.dataset['theme']).toBeUndefined();
  });
});
