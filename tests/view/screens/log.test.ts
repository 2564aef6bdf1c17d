import { beforeEach, describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { summaryOf } from '../../../src/practice/takes/take-scoring';
import { parseTake } from '../../../src/take/take-json';
import type { Player } from '../../../src/take/player';
import { readMidiFile } from '../../../src/take/read-midi-file';
import { fileName } from '../../../src/view/page/file-name';
import { DOWNLOADS } from '../../../src/view/screens/log/downloads';
import { passageWords } from '../../../src/view/screens/log/passage-words';
import { mountShell } from '../mount-shell';
import { fillLog, simulatedTake } from '../sample-takes';

/** The last begins after the take's end. */
const PASSAGES = [
  { fromBar: 1, layer: 5 },
  { fromBar: 3, layer: 2 },
  { fromBar: 90, layer: 1 },
];
/** Wide enough for the table. */
beforeEach(() => page.viewport(1440, 900));

const cells = (row: Element) => [...row.children].map((cell) => cell.textContent?.trim());

describe('the log', () => {
  it('tells that it is empty', async () => {
    await mountShell('#log');
    await expect.element(page.getByTestId('no-takes')).toBeVisible();
    expect(page.getByRole('table').query()).toBeNull();
  });

  it('lists takes newest first with their figures', async () => {
    await mountShell('#log', async (parts) => void (await fillLog(parts)));
    const rows = page.getByTestId('take-row');
    await expect.element(rows.nth(1)).toBeVisible();
    await expect.element(rows.nth(0)).toHaveTextContent(/21 Nov 2026/);
    // A simulated player without faults is exactly in time: share 100, offset and spread 0.
    // 24.1 dB: 40 log10(112 / 28), the velocities such a player strikes accents and ghosts with.
    expect(cells(rows.nth(0).element()).slice(1)).toEqual([
      'Quay Steps',
      '5 Ghosts',
      'passed',
      '88',
      '0:12',
      '73',
      '100',
      '0.0',
      '0.0',
      '24.1',
    ]);
    await expect.element(rows.nth(1)).toHaveTextContent(/20 Nov 2026.*Quay Steps/);
  });

  /** Takes in the log by these players, oldest first. */
  const logOf = (...players: readonly (Player | undefined)[]) =>
    mountShell('#log', async (parts) => {
      for (const [day, player] of players.entries()) {
        const startedAt = `2026-11-${10 + day}T18:20:00.000Z`;
        const take = { ...simulatedTake(parts.session.entry!, startedAt), player };
        await parts.store.add(take, summaryOf(take)!);
      }
    });

  it('keeps what nobody played apart, folded up', async () => {
    await logOf('kit', 'simulated player', 'file', 'keyboard and pads', undefined);
    const own = page.getByRole('region', { name: 'Takes', exact: true });
    await expect.element(own.getByTestId('take-row').nth(2)).toBeVisible();
    expect(own.getByTestId('take-row').elements()).toHaveLength(3);
    const others = page.getByTestId('others');
    await expect.element(others).toHaveTextContent('Not played by you: 2 takes');
    await expect.element(others.getByTestId('take-row').first()).not.toBeVisible();
    await others.getByText('Not played by you').click();
    await expect.element(others.getByTestId('take-row').nth(1)).toBeVisible();
    const [file, simulated] = others.getByTestId('take-row').elements().map(cells);
    expect([file![0], file![3]]).toEqual([
      expect.stringContaining('a MIDI file'),
      'does not count',
    ]);
    expect(simulated![0]).toContain('the simulated player');
  });

  it('shows what nobody played where there is nothing else', async () => {
    await logOf('simulated player');
    await expect
      .element(page.getByTestId('no-takes'))
      .toHaveTextContent('No take of your own yet.');
    await expect.element(page.getByTestId('take-row')).toBeVisible();
  });

  it('has no such part where the player played everything', async () => {
    await logOf('kit');
    await expect.element(page.getByTestId('take-row')).toBeVisible();
    expect(page.getByTestId('others').query()).toBeNull();
  });

  it('opens a take with lane, table, figures by voice and wrong voices', async () => {
    let id = '';
    await mountShell('#log', async (parts) => void (id = (await fillLog(parts))[0]!));
    location.hash = `#log/${id}`;
    await expect.element(page.getByTestId('figure-spread')).toBeVisible();
    await expect.element(page.getByRole('img')).toBeVisible();
    await expect.element(page.getByTestId('wrong-voice').first()).toBeVisible();
    const groups = [...page.getByTestId('figures').element().querySelectorAll('[scope=rowgroup]')];
    expect(groups).toHaveLength(5);
  });

  it('says in the take on which pads no level was judged', async () => {
    let id = '';
    await mountShell('#log', async (parts) => {
      const whole = simulatedTake(parts.session.entry!, '2026-11-22T18:20:00.000Z', {
        velocitySpread: 6,
      });
      const messages = whole.messages.map((one) =>
        one.data1 === 38 ? { ...one, data2: 90 } : one,
      );
      const take = { ...whole, messages };
      id = (await parts.store.add(take, summaryOf(take)!)).summary.id;
    });
    location.hash = `#log/${id}`;
    const sentence = /^Acoustic snare sends one velocity \(90\): the level of \d+ notes there/;
    await expect.element(page.getByText(sentence)).toBeVisible();
  });

  it('deletes a take after asking, and puts it back', async () => {
    let ids: string[] = [];
    const parts = await mountShell('#log', async (made) => void (ids = await fillLog(made)));
    await page.getByTestId('take-row').first().getByRole('link').click();
    await page.getByTestId('delete-take').click();
    expect(parts.takes.summaries).toHaveLength(2);
    await page.getByRole('button', { name: 'Delete', exact: true }).click();
    await expect.element(page.getByTestId('removed')).toBeVisible();
    expect(parts.takes.summaries.map(({ id }) => id)).toEqual([ids[0]]);
    await page.getByRole('button', { name: 'Put it back' }).click();
    await expect.poll(() => parts.takes.summaries.length).toBe(2);
    await expect.element(page.getByRole('heading', { name: 'Log' })).toHaveFocus();
    expect((await parts.store.get(ids[1]!)).ok).toBe(true);
  });

  it('keeps the focus through the question whether to delete', async () => {
    await mountShell('#log', async (parts) => void (await fillLog(parts)));
    await page.getByTestId('take-row').first().getByRole('link').click();
    await page.getByTestId('delete-take').click();
    const keep = page.getByRole('button', { name: 'Keep it' });
    await expect.element(keep).toHaveFocus();
    await keep.click();
    await expect.element(page.getByTestId('delete-take')).toHaveFocus();
  });

  it('tells every layer that a take was played to', async () => {
    let id = '';
    await mountShell('#log', async (parts) => {
      const whole = simulatedTake(parts.session.entry!, '2026-11-22T18:20:00.000Z');
      const take = { ...whole, passages: PASSAGES };
      id = (await parts.store.add(take, summaryOf(take)!)).summary.id;
    });
    const row = page.getByTestId('take-row').first();
    await expect.element(row).toBeVisible();
    expect(cells(row.element())[2]).toBe('5 Ghosts, 2 Accents');
    location.hash = `#log/${id}`;
    await expect
      .element(page.getByTestId('take-line'))
      .toHaveTextContent(passageWords(PASSAGES.slice(0, 2), 3).join(', '));
  });

  it('gives a take away in forms that read back', async () => {
    const parts = await mountShell('#log');
    const take = simulatedTake(parts.session.entry!, '2026-11-20T18:20:00.000Z', { spreadMs: 9 });
    const content = (ending: string) =>
      DOWNLOADS.find((download) => download.ending === ending)!.content(take);
    const json = parseTake(content('json') as string);
    expect(json.ok && json.value.messages).toEqual(take.messages);
    const midi = readMidiFile(content('mid') as Uint8Array);
    const struck = (messages: readonly { status: number; data2: number }[]) =>
      messages.filter(({ status, data2 }) => status >> 4 === 9 && data2 > 0).length;
    expect(midi.ok && struck(midi.value.messages)).toBe(struck(take.messages));
    expect((content('csv') as string).split('\n').length).toBeGreaterThan(struck(take.messages));
    const named = { title: 'Quay Steps / 2', otherwise: 'take', at: '2026-03-01T18:20:05.000Z' };
    expect(fileName(named, 'mid')).toBe('quay-steps-2-2026-03-01-182005z.mid');
    expect(fileName({ title: '…', otherwise: 'take' }, 'mid')).toBe('take.mid');
  });

  it('tells when a take is not there', async () => {
    await mountShell('#log/gone');
    await expect.element(page.getByRole('main').getByRole('alert')).toBeVisible();
  });
});
