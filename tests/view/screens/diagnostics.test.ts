import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { browserFacts, kitReport } from '../../../src/view/screens/diagnostics/kit-report';
import { lookAt } from '../../../src/view/screens/diagnostics/look';
import { messageWords, UNMAPPED_WORDS } from '../../../src/view/screens/diagnostics/message-words';
import { residualPlot } from '../../../src/view/screens/diagnostics/residual-plot';
import { mountShell } from '../mount-shell';
import { playHarbourKit } from '../played-trace';

const cells = (testId: string, row: number) =>
  [...page.getByTestId(testId).element().querySelectorAll('tbody tr')[row]!.children].map((cell) =>
    cell.textContent?.trim().replaceAll(/\s+/g, ' '),
  );
const rows = (testId: string) =>
  page.getByTestId(testId).element().querySelectorAll('tbody tr').length;

describe('what the kit sends', () => {
  it('is reached from the kit screen', async () => {
    await mountShell('#kit');
    await page.getByRole('link', { name: 'What the kit sends' }).click();
    await expect
      .element(page.getByRole('heading', { level: 1, name: 'What the kit sends' }))
      .toHaveFocus();
  });

  it('shows each message newest first, in bytes and in words', async () => {
    await mountShell('#kit/what-it-sends', ({ inputs }) => playHarbourKit(inputs.monitor.trace));
    await expect.element(page.getByTestId('last-messages')).toBeVisible();
    // Worked by hand from what is played: see played-trace.ts.
    expect(cells('last-messages', 0)).toEqual([
      '99 5B 4D',
      messageWords([0x99, 91, 77]),
      UNMAPPED_WORDS,
      '100.0',
      '1.0',
    ]);
    expect(cells('last-messages', 1)).toEqual([
      'B9 04 3F',
      messageWords([0xb9, 4, 63]),
      '',
      '492.0',
      '1.0',
    ]);
    expect(cells('last-messages', 2)).toEqual([
      '99 26 1E',
      messageWords([0x99, 38, 30]),
      'snare, double trigger',
      '8.0',
      '2.0',
    ]);
    const meter = page.getByRole('meter').element() as HTMLMeterElement;
    expect(meter.value).toBeCloseTo(0.5, 1);
  });

  it('tells each pad apart: strokes, velocities, gaps, delays, faults', async () => {
    await mountShell('#kit/what-it-sends', ({ inputs }) => playHarbourKit(inputs.monitor.trace));
    await expect.element(page.getByTestId('pad-table')).toBeVisible();
    expect(cells('pad-table', 0)).toEqual([
      '38',
      'snare head',
      '11',
      '',
      '20 to 110',
      '8.0, 1000.0, 1000.0',
      '2.0 / 60.0 / 60.0',
      '1',
      '0',
    ]);
    expect(cells('pad-table', 1).slice(0, 3)).toEqual(['91', UNMAPPED_WORDS, '1']);
  });

  it('puts a new note on the note map', async () => {
    const { inputs } = await mountShell('#kit/what-it-sends', (parts) => {
      playHarbourKit(parts.inputs.monitor.trace);
      parts.session.status = 'playing';
    });
    await page.getByLabelText('Note 91 is').selectOptions('cowbell');
    await page.getByRole('button', { name: 'Put it on the note map' }).click();
    await expect
      .element(page.getByTestId('new-notes').getByRole('status'))
      .toHaveTextContent(/\b91\b.*cowbell/);
    expect(inputs.mapped).toEqual([{ note: 91, voice: 'cowbell' }]);
  });

  it('tells the faults of the kit with what usually cures them', async () => {
    const { inputs } = await mountShell('#kit/what-it-sends');
    inputs.monitor.faults = [
      {
        fault: 'double triggers',
        pad: 38,
        count: 6,
        sentence: 'Fault.',
        advice: 'Cure.',
      },
    ];
    await expect.element(page.getByTestId('kit-faults')).toHaveTextContent('Fault. Cure.');
  });

  it('stands still on request, and counts anew', async () => {
    const { inputs } = await mountShell('#kit/what-it-sends', (parts) =>
      playHarbourKit(parts.inputs.monitor.trace),
    );
    await expect.element(page.getByTestId('pad-table')).toBeVisible();
    await page.getByRole('button', { name: 'Pause' }).click();
    playHarbourKit(inputs.monitor.trace);
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(cells('pad-table', 0)[2]).toBe('11');
    await page.getByRole('button', { name: 'Pause' }).click();
    await expect.poll(() => cells('pad-table', 0)[2]).toBe('22');
    await page.getByRole('button', { name: 'Start over' }).click();
    await expect.poll(() => page.getByTestId('last-messages').query()).toBeNull();
    expect(page.getByTestId('pad-table').query()).toBeNull();
  });

  it('shows the last messages whole at 1440 px', async () => {
    await page.viewport(1440, 900);
    await mountShell('#kit/what-it-sends', (parts) => playHarbourKit(parts.inputs.monitor.trace));
    const frame = page.getByRole('region', { name: 'Last messages' });
    await expect.element(frame).toBeVisible();
    const { scrollWidth, clientWidth } = frame.element();
    expect(scrollWidth).toBeLessThanOrEqual(clientWidth);
  });

  it('keeps the place in the page when its numbers change', async () => {
    const { inputs } = await mountShell('#kit/what-it-sends', (parts) =>
      playHarbourKit(parts.inputs.monitor.trace),
    );
    await page.getByLabelText('Note 91 is').selectOptions('crash');
    await userEvent.click(page.getByLabelText('Note 91 is'));
    playHarbourKit(inputs.monitor.trace);
    await expect.poll(() => rows('last-messages')).toBe(18);
    await expect.element(page.getByLabelText('Note 91 is')).toHaveValue('crash');
    await expect.element(page.getByLabelText('Note 91 is')).toHaveFocus();
  });

  it('starts the sound where none runs, and tells of the clocks', async () => {
    const { sound } = await mountShell('#kit/what-it-sends', (parts) => {
      parts.sound.state = 'off';
    });
    await page.getByRole('button', { name: 'Start the sound' }).click();
    expect(sound.started).toBe(1);
    const figures = page.getByRole('definition');
    await expect.element(figures.nth(0)).toHaveTextContent('Boathouse speakers');
    await expect.element(figures.nth(3)).toHaveTextContent('±0.31');
    await expect.element(figures.nth(4)).toHaveTextContent('−87');
    await expect
      .element(page.getByTestId('residuals'))
      .toHaveTextContent(residualPlot(sound.residuals)!.words);
  });
});

describe('the file for somebody who helps', () => {
  it('holds every message and what was made of it', async () => {
    const parts = await mountShell('#kit/what-it-sends', ({ inputs }) => {
      playHarbourKit(inputs.monitor.trace);
      inputs.port.ports = [{ id: '1', name: 'Boathouse kit' }];
    });
    const frames = { look: () => ({ count: 0, p50: undefined, p99: undefined, max: undefined }) };
    const look = lookAt(parts, { ...frames, stop: () => undefined });
    const text = kitReport(parts, look, browserFacts(), undefined, '2026-05-04T18:00:00.000Z');
    const report = JSON.parse(text) as Record<string, unknown> & { messages: unknown[] };
    expect(report.messages).toHaveLength(13);
    expect(report.messages[10]).toEqual({
      stampMs: 9008,
      delayMs: 2,
      bytes: [0x99, 38, 30],
      voice: 'snare',
      openness: null,
      setAside: 'double trigger',
    });
    expect(report['midi']).toMatchObject({ ports: [{ name: 'Boathouse kit', chosen: false }] });
    expect(report['pads']).toHaveLength(2);
    expect(report['clocks']).toMatchObject({ ratePpm: -87.2 });
  });
});

describe('interruptions of a take', () => {
  it('are told above every screen', async () => {
    const { session } = await mountShell('#practise');
    session.notices = ['The page was hidden in bar 3.', 'The sound was paused in bar 3.'];
    await expect.poll(() => page.getByTestId('notice').elements().length).toBe(2);
    session.notices = [];
    await expect.poll(() => page.getByTestId('notice').elements().length).toBe(0);
  });
});
