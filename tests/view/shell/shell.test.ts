import { tick } from 'svelte';
import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { cleanup } from 'vitest-browser-svelte';
import { mountShell } from '../mount-shell';
import { sampleStats } from '../sample-stats';

it('looks at nothing any more once it is gone, though a screen was on its way', async () => {
  const { route } = await mountShell('#practise');
  const warned = vi.spyOn(console, 'warn');
  const arrived = new Promise((resolve) => addEventListener('hashchange', resolve, { once: true }));
  route.go('help');
  await arrived;
  await tick();
  cleanup();
  await import('../../../src/view/screens/help/Help.svelte');
  await new Promise((resolve) => setTimeout(resolve));
  expect(warned).not.toHaveBeenCalled();
});

describe('what plays while another screen is open', () => {
  const playing = async (hash: string) => {
    const parts = await mountShell(hash, ({ session }) => {
      session.status = 'playing';
      session.choose({ layer: 2, tempoBpm: 104 });
    });
    return { ...parts, bar: page.getByTestId('playing-bar') };
  };

  it('is named there with its layer and tempo, and leads back', async () => {
    const { bar, session } = await playing('#help');
    const { title, layers } = session.phrase!;
    await expect.element(bar).toHaveTextContent(`${title}, layer 2 ${layers[1]!.name}, 104 bpm`);
    session.upcoming = [{ layer: 2, bar: 3, hasPickup: false, atUs: 1e9 }];
    session.stats = sampleStats({ layer: 1 });
    await expect.element(bar).toHaveTextContent(`layer 1 ${layers[0]!.name},`);
    await bar.getByRole('link').click();
    await expect.element(page.getByTestId('lane-table')).toBeInTheDocument();
    expect(bar.query()).toBeNull();
  });

  it('is stopped there by a button, and by Esc', async () => {
    const { bar, session } = await playing('#help');
    await bar.getByRole('button', { name: 'Stop' }).click();
    expect(session.status).toBe('idle');
    await expect.element(bar).not.toBeInTheDocument();
    session.status = 'counting in';
    await expect.element(bar).toHaveTextContent('Counting in');
    await userEvent.keyboard('{Escape}');
    expect(session.status).toBe('idle');
  });

  it('goes on when the space bar is pressed there', async () => {
    const { bar, session } = await playing('#help');
    await expect.element(bar).toBeVisible();
    await userEvent.keyboard(' ');
    expect(session.status).toBe('playing');
  });

  it('stands in sight however far the page is scrolled', async () => {
    const { bar } = await playing('#help');
    await expect.element(bar).toBeVisible();
    for (const top of [0, document.documentElement.scrollHeight]) {
      scrollTo({ top });
      await expect
        .poll(() => bar.element().getBoundingClientRect().bottom)
        .toBeLessThanOrEqual(innerHeight + 1);
      expect(bar.element().getBoundingClientRect().top).toBeGreaterThan(0);
    }
  });
});

it('says of an unknown address that nothing is there, and shows no screen under it', async () => {
  const { session } = await mountShell('#nonsense/3');
  const heading = page.getByRole('heading', { level: 1, name: 'Nothing here' });
  await expect.element(heading).toBeVisible();
  await expect.element(page.getByText('#nonsense/3')).toBeVisible();
  expect(page.getByTestId('start').query()).toBeNull();
  expect(document.querySelector('nav [aria-current]')).toBeNull();
  await expect.element(page.getByText(session.phrase!.title)).toBeVisible();
  await page.getByRole('main').getByRole('link', { name: 'All phrases' }).click();
  await expect.element(page.getByRole('heading', { level: 1, name: 'Phrases' })).toBeVisible();
});
