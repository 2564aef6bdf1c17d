import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { KitDecoder } from '../../../src/kit/kit-decoder';
import { velocitySummary } from '../../../src/kit/velocity-summary';
import { withBoundaries } from '../../../src/kit/edit-kit';
import type { StrokeSink } from '../../../src/midi/stroke-source';
import { velocityWords } from '../../../src/view/screens/kit/levels/velocity-words';
import { mountShell } from '../mount-shell';

describe('velocity curves', () => {
  const strike = (inputs: { listener: StrokeSink | undefined }, velocities: number[]) => {
    for (const velocity of velocities) inputs.listener!(0, 0x99, 38, velocity);
  };
  const curve = () => page.getByTestId('velocity-curve').first();
  const strokesDrawn = () => curve().element().querySelectorAll('svg svg').length;

  it('draws the strokes asked for with the boundaries, and says it in words', async () => {
    const { inputs } = await mountShell('#kit');
    await page.getByTestId('learn-levels').click();
    strike(inputs, [20, 22, 24, 26, 28, 30]);
    strike(inputs, [60, 62, 64, 66, 68, 70]);
    strike(inputs, [100, 102, 104, 106, 108, 110]);
    const velocities = [
      20, 22, 24, 26, 28, 30, 60, 62, 64, 66, 68, 70, 100, 102, 104, 106, 108, 110,
    ];
    const words = velocityWords(velocities, { ghostMax: 44, accentMin: 85 });
    await expect.element(curve()).toHaveTextContent(words);
    await expect.element(curve()).toHaveTextContent(/accents \w+ 85.*ghosts \w+ 44/);
    expect(page.getByTestId('levels-warning').query()).toBeNull();
  });

  it('warns when the pad cannot tell the levels apart', async () => {
    const { inputs } = await mountShell('#kit');
    await page.getByTestId('learn-levels').click();
    strike(inputs, [20, 22, 24, 70, 72, 74]);
    strike(inputs, [60, 62, 64, 66, 68, 70]);
    strike(inputs, [100, 102, 104, 106, 108, 110]);
    await expect.element(page.getByTestId('levels-warning')).toHaveTextContent(/ghosts.*taps/);
  });

  it('lists every pad with learned or usual levels', async () => {
    const { inputs } = await mountShell('#kit');
    inputs.kit = withBoundaries(inputs.kit, 38, { ghostMax: 40, accentMin: 88 });
    const rows = () =>
      [
        ...page.getByRole('region', { name: 'Note map' }).element().querySelectorAll('tbody tr'),
      ].map((row) => [...row.children].map((cell) => cell.textContent.trim()));
    await expect
      .poll(() => rows().filter((cells) => cells.at(-1) === 'learned'))
      .toEqual([['38', 'snare head', 'snare', '40', '88', 'learned']]);
    expect(rows()).toHaveLength(inputs.kit.pads.length);
    expect(rows().filter((cells) => cells.at(-1) === 'usual')).toHaveLength(
      inputs.kit.pads.length - 1,
    );
  });

  it('shows what a pad sent, and what is wrong with it', async () => {
    const { inputs } = await mountShell('#kit', ({ inputs }) => {
      const decoder = new KitDecoder(inputs.kit);
      for (let i = 0; i < 20; i++) {
        const velocity = i < 8 ? 127 : 40 + 4 * i;
        const message = decoder.read(1_000_000 * i, 0x99, 38, velocity);
        inputs.monitor.trace.add(message, 1000 * i + 2);
      }
    });
    inputs.monitor.heard = { note: 38, voice: 'snare', velocity: 127 };
    const velocities = [
      ...Array<number>(8).fill(127),
      ...Array.from({ length: 12 }, (_, i) => 72 + 4 * i),
    ];
    const remarks = velocitySummary(velocities)!.remarks;
    expect(remarks).toHaveLength(1);
    await expect.element(page.getByText(remarks[0]!)).toBeVisible();
    expect(strokesDrawn()).toBe(20);
    await page.getByTestId('curve-pad').selectOptions('36');
    await expect.poll(strokesDrawn).toBe(0);
  });
});
