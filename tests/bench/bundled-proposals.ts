import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { build } from 'vite';

/** What a thread proposes, as plain data. */
export interface ProposingJob {
  /** A phrase's file. */
  readonly text: string;
  readonly count: number;
  readonly seed: number;
  readonly runs: number;
}

export interface RunTime {
  readonly ms: number;
  /** Spent by all processors on it, the engine's helpers for memory and compiling too. */
  readonly processorMs: number;
}

export interface ProposedRuns {
  /** Of each run; the first was the first of its thread. */
  readonly times: readonly RunTime[];
  /** The files of what was proposed. */
  readonly texts: readonly string[];
}

/**
 * The engine bundled and minified as the app's own workers are, for `work` to propose with, each time on a new
 * thread whose code is cold. Unbundled, the sources run slower than in the app: tsx keeps the name of every inner
 * function by a call each time that one is made.
 */
export async function withBundledProposals<T>(
  work: (propose: (job: ProposingJob) => Promise<ProposedRuns>) => Promise<T>,
): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'variations-'));
  try {
    await build({
      configFile: false,
      logLevel: 'warn',
      ssr: { noExternal: true },
      build: {
        ssr: fileURLToPath(new URL('variations-worker.ts', import.meta.url)),
        target: 'es2022',
        minify: true,
        outDir: folder,
        emptyOutDir: false,
        copyPublicDir: false,
        rolldownOptions: { output: { entryFileNames: 'worker.mjs' } },
      },
    });
    return await work(async (workerData) => {
      const thread = new Worker(join(folder, 'worker.mjs'), { workerData });
      const [runs] = (await once(thread, 'message')) as [ProposedRuns];
      await thread.terminate();
      return runs;
    });
  } finally {
    await rm(folder, { recursive: true });
  }
}
