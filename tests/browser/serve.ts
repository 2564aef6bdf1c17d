import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, with a slash at the end. */
    address: string;
  }
}

/**
 * Builds the app into a folder of its own, so that no stale build is ever tested and `dist` stays
 * as it is, and serves it on a free port for all browser tests. Read the address with
 * `inject('address')`.
 */
export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const outDir = await mkdtemp(join(tmpdir(), 'app-under-test-'));
  // In a process of its own: inside Vitest NODE_ENV is "test", and Svelte would be built for development.
  await promisify(execFile)(
    process.execPath,
    ['node_modules/vite/bin/vite.js', 'build', '--outDir', outDir, '--emptyOutDir'],
    { cwd: project.config.root, env: { ...process.env, NODE_ENV: 'production' } },
  );
  const server = await preview({
    logLevel: 'warn',
    build: { outDir },
    preview: { host: '127.0.0.1', port: 4300, strictPort: false },
  });
  const address = server.resolvedUrls?.local[0];
  if (address === undefined) throw new Error('The preview server started without an address.');
  project.provide('address', address);
  return async () => {
    await server.close();
    await rm(outDir, { recursive: true, force: true });
  };
}
