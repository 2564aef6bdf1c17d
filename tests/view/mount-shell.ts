import { deleteDB } from 'idb';
import { expect } from 'vitest';
import { render } from 'vitest-browser-svelte';
import '../../src/view/theme/theme.css';
import Shell from '../../src/view/shell/Shell.svelte';
import { stubParts, type StubParts } from './stub-parts';

let mounted = 0;

/** Chosen: far more than any machine needs, and less than a test may take. */
const OPENED_BY_MS = 30_000;

/** The whole app on stub parts, at an address, on a store of its own. */
export async function mountShell(
  hash: string,
  prepare: (parts: StubParts) => void | Promise<void> = () => undefined,
): Promise<StubParts> {
  const name = `screens-under-test-${mounted++}`;
  await deleteDB(name);
  location.hash = hash;
  const parts = stubParts(name);
  // A busy machine opens it later than a player is kept waiting for it.
  await expect
    .poll(async () => (await parts.store.list()).problem, { timeout: OPENED_BY_MS })
    .toBeUndefined();
  await prepare(parts);
  await render(Shell, { parts });
  return parts;
}
