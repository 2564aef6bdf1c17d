import { parentPort, workerData } from 'node:worker_threads';
import { takeJudge } from './judge-take';
import { nextIndex, type JudgingJob, type TakeResult } from './judge-takes';

// A thread that takes the next take of the list as long as there is one.

const { paths, settings, next } = workerData as JudgingJob;
const judge = takeJudge(settings);
for (let index = nextIndex(next); index < paths.length; index = nextIndex(next))
  parentPort!.postMessage({ index, answer: judge(paths[index]!) } satisfies TakeResult);
