import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { scripts } from '../../../package.json';
import { MIDI_STATES } from '../../../src/midi/midi-problems';
import { CHAPTERS } from '../../../src/view/screens/help/guide/chapters';
import { PICTURE_SIZE } from '../../../src/view/screens/help/guide/picture-size';
import { mountShell } from '../mount-shell';

it('says how to keep what was played, and leads to where that is done', async () => {
  await mountShell('#help');
  const heading = (name: string) => page.getByRole('heading', { name, exact: true });
  await expect.element(heading('Keeping what was played')).toBeVisible();
  const command = page.getByText(/^npm run -s \w+ -- TAKE\.json$/).element().textContent;
  expect(Object.keys(scripts)).toContain(command.split(' ')[3]);
  await page.getByRole('link', { name: 'What is kept' }).click();
  await expect.element(heading('Put it back, or open a take')).toBeVisible();
  await expect.element(page.getByRole('button', { name: 'Save a backup' })).toBeVisible();
});

describe('the guide', () => {
  const picture = () => page.getByTestId('guide-picture');

  it('leads from chapter to chapter, each with its picture, told in words too', async () => {
    await mountShell('#help');
    await page.getByRole('link', { name: CHAPTERS[0]!.title }).click();
    for (const [i, { title, pictured }] of CHAPTERS.entries()) {
      await expect.element(page.getByRole('heading', { level: 1, name: title })).toHaveFocus();
      await expect.element(page.getByRole('img', { name: pictured })).toBeVisible();
      const image = picture().element() as HTMLImageElement;
      await image.decode();
      expect([image.naturalWidth, image.naturalHeight]).toEqual([
        2 * PICTURE_SIZE.width,
        2 * PICTURE_SIZE.height,
      ]);
      const next = page.getByRole('link', { name: /^Next: / });
      if (i + 1 < CHAPTERS.length) await next.click();
      else expect(next.elements()).toEqual([]);
    }
  });

  it('shows its pictures in the theme of the page', async () => {
    const { theme } = await mountShell('#help/reading-the-lane');
    const shown = new Set<string>();
    for (const shade of ['light', 'dark'] as const) {
      theme.choose(shade);
      await expect
        .poll(() => picture().element().getAttribute('src'))
        .not.toSatisfy((src) => shown.has(src as string));
      shown.add(picture().element().getAttribute('src')!);
    }
    theme.choose('system');
    expect(shown.size).toBe(2);
  });

  it('is linked from the kit screen where something is the matter', async () => {
    await mountShell('#kit');
    await page.getByRole('link', { name: 'All troubles of a kit' }).click();
    const heading = page.getByRole('heading', { level: 1, name: 'Kit troubles' });
    await expect.element(heading).toBeVisible();
    await expect.element(page.getByText(MIDI_STATES['no device'].sentence)).toBeVisible();
  });
});
