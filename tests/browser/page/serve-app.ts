import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { preview } from 'vite';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));

export interface ServedApp {
  /** With a slash at the end. */
  readonly address: string;
  /** The folder it was built into. */
  readonly folder: string;
  close(): Promise<void>;
}

/** The app where `npm run check` built it, or built anew into a folder of its own, served on a free port. */
export async function serveApp(): Promise<ServedApp> {
  const built = process.env['APP_UNDER_TEST'];
  const folder = built ?? (await buildApp());
  const server = await preview({
    root: ROOT,
    logLevel: 'warn',
    build: { outDir: folder },
    // The name is reserved for examples (RFC 2606, 3): a test maps it to this machine.
    preview: { host: '127.0.0.1', port: 4300, strictPort: false, allowedHosts: ['drum.example'] },
  });
  const address = server.resolvedUrls?.local[0];
  if (address === undefined) throw new Error('The preview server started without an address.');
  return {
    address,
    folder,
    async close() {
      await server.close();
      if (built === undefined) await rm(folder, { recursive: true, force: true });
    },
  };
}

/** So that no stale build is ever used and `dist` stays as it is. */
async function buildApp(): Promise<string> {
  const outDir = await mkdtemp(join(tmpdir(), 'app-under-test-'));
  // In a process of its own: inside Vitest NODE_ENV is "test", and Svelte would be built for development.
  await promisify(execFile)(
    process.execPath,
    [
      'node_modules/vite/bin/vite.js',
      'build',
      '--outDir',
      outDir,
      '--emptyOutDir',
      // Beside the app, which does not name them: they tell a test what went into it.
      '--sourcemap',
      'hidden',
    ],
    { cwd: ROOT, env: { ...process.env, NODE_ENV: 'production' } },
  );
  return outDir;
}
