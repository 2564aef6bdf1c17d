import { availableParallelism } from 'node:os';
import { setImmediate } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import { takeJudge, type JudgingSettings, type TakeAnswer } from './judge-take';

/** What another thread is started with. */
export interface JudgingJob {
  readonly paths: readonly string[];
  readonly settings: JudgingSettings;
  /** One number that all threads share: how many takes have been begun. */
  readonly next: SharedArrayBuffer;
}

/** What it answers with: the take's place in the list, from 0. */
export interface TakeResult {
  readonly index: number;
  readonly answer: TakeAnswer;
}

/** The next take that nobody has begun. */
export const nextIndex = (next: SharedArrayBuffer): number =>
  Atomics.add(new Int32Array(next), 0, 1);

/** When other cores are asked to help. */
export interface Help {
  /** Threads beside this one. */
  readonly threads: number;
  /** So much work must be left for one thread, ms, as the takes before it let expect. */
  readonly fromMs: number;
}

/**
 * A thread starts in about 1.5 s of processor time, so that it pays from as much work on; a take of ten minutes is
 * judged in about 0.1 s (two cores, Node 20). Asked for later, since the guess is rough.
 */
const USUAL_HELP: Help = { threads: Math.min(7, availableParallelism() - 1), fromMs: 4000 };

/**
 * Judges takes, with other cores where that pays, and says after each how many are done. The answers are in the order of
 * the paths, whoever gave them.
 */
export async function judgeTakes(
  paths: readonly string[],
  settings: JudgingSettings,
  tell: (done: number, of: number) => void,
  { threads, fromMs }: Help = USUAL_HELP,
): Promise<readonly TakeAnswer[]> {
  const next = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT);
  const answers: (TakeAnswer | undefined)[] = [];
  let done = 0;
  const keep = ({ index, answer }: TakeResult) => {
    answers[index] = answer;
    tell(++done, paths.length);
  };
  const judge = takeJudge(settings);
  const startedMs = performance.now();
  const helpers: Promise<void>[] = [];
  for (let index = nextIndex(next); index < paths.length; index = nextIndex(next)) {
    keep({ index, answer: judge(paths[index]!) });
    const leftMs = ((performance.now() - startedMs) / done) * (paths.length - done);
    if (helpers.length === 0 && leftMs >= fromMs)
      for (let i = 0; i < threads; i++) helpers.push(helper({ paths, settings, next }, keep));
    // What others have sent is read between two takes.
    await setImmediate();
  }
  await Promise.all(helpers);
  // What a thread had begun when it broke.
  for (const [index, path] of paths.entries())
    if (answers[index] === undefined) keep({ index, answer: judge(path) });
  return answers.filter((answer) => answer !== undefined);
}

/** Ends when there is no take left, or the thread breaks. */
function helper(job: JudgingJob, keep: (result: TakeResult) => void): Promise<void> {
  const worker = new Worker(new URL('../../../.scripts/run-thread.mjs', import.meta.url), {
    workerData: { ...job, program: new URL('./judge-worker.ts', import.meta.url).href },
  });
  worker.on('message', keep);
  return new Promise((resolve) => {
    worker.on('error', () => resolve());
    worker.on('exit', () => resolve());
  });
}
