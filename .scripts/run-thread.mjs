import { workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

// A thread of a program: sources are TypeScript, which each thread has to be told anew.

const { program } = /** @type {{ readonly program: string }} */ (workerData);
register();
await import(program);
