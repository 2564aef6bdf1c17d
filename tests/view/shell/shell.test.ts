import { tick } from 'svelte';
import { expect, it, vi } from 'vitest';
import { cleanup } from 'vitest-browser-svelte';
import { mountShell } from '../mount-shell';

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
