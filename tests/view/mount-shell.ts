import { deleteDB } from 'idb';
import { render } from 'vitest-browser-svelte';
import '../../src/view/theme/theme.css';
import Shell from '../../src/view/shell/Shell.svelte';
import { stubParts, type StubParts } from './stub-parts';

let mounted = 0;

/** The whole app on stub parts, at an address, on a store of its own. */
export async function mountShell(
  hash: string,
  prepare: (parts: StubParts) => void | Promise<void> = () => undefined,
): Promise<StubParts> {
  const name = `screens-under-test-${mounted++}`;
  await deleteDB(name);
  location.hash = hash;
  const parts = stubParts(name);
  await prepare(parts);
  await render(Shell, { parts });
  return parts;
}
