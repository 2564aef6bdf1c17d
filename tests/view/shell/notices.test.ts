import { afterEach, describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { summaryOf } from '../../../src/practice/take-scoring';
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

describe('paper and ink', () => {
  it('are chosen, and chosen again after a reload', async () => {
    await mountShell('#kit');
    const root = document.documentElement;
    await page.getByLabelText('Light or dark').selectOptions('dark');
    expect(root.dataset['theme']).toBe('dark');
    const again = await mountShell('#kit');
    expect(again.theme.current).toBe('dark');
    again.theme.choose('system');
    expect(root.dataset['theme']).toBeUndefined();
  });
});
