import type { Outcome, TwistJob } from '../../phrase/vary/outcome';
import type { Proposals, ProposalsJob } from '../../phrase/vary/proposals';

/** Answers one question at a time; a new one makes the one before it moot. */
export interface VaryThread<Job, Answer> {
  /** Undefined when another question came before the answer. Rejects when the work fails. */
  ask(job: Job): Promise<Answer | undefined>;
  close(): void;
}

const startWorker = (): Worker =>
  new Worker(new URL('./vary-worker.ts', import.meta.url), { type: 'module' });

/** Answers on a thread of its own, since long cycles take longer than a page may stand still. */
class WorkerThread<Job, Answer> implements VaryThread<Job, Answer> {
  #worker: Worker | undefined;
  #moot: (() => void) | undefined;

  ask(job: Job): Promise<Answer | undefined> {
    if (this.#moot) this.close();
    const worker = (this.#worker ??= startWorker());
    return new Promise((resolve, reject) => {
      this.#moot = () => resolve(undefined);
      worker.onmessage = ({ data }: MessageEvent<Answer>) => {
        this.#moot = undefined;
        resolve(data);
      };
      worker.onerror = ({ message }) => {
        this.#moot = undefined;
        this.close();
        reject(new Error(message));
      };
      worker.postMessage(job);
    });
  }

  close(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#moot?.();
    this.#moot = undefined;
  }
}

export const weighOnThread = (): VaryThread<TwistJob, Outcome> => new WorkerThread();
export const proposeOnThread = (): VaryThread<ProposalsJob, Proposals> => new WorkerThread();
