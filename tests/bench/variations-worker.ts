import { parentPort, workerData } from 'node:worker_threads';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { proposeVariations } from '../../src/phrase/vary/propose';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { chance } from '../../src/time/chance';
import type { ProposedRuns, ProposingJob } from './bundled-proposals';

// A thread that proposes the same variations again and again; the first time its code is cold.

const { text, count, seed, runs } = workerData as ProposingJob;
const parsed = parsePhrase(text);
if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
const propose = () => proposeVariations(parsed.value, count, {}, chance(seed).share);

const times = Array.from({ length: runs }, () => {
  const before = process.cpuUsage();
  const from = performance.now();
  propose();
  const ms = performance.now() - from;
  const { user, system } = process.cpuUsage(before);
  return { ms, processorMs: (user + system) / 1000 };
});
const texts = propose().map(({ phrase }) => writePhrase(phrase));
parentPort!.postMessage({ times, texts } satisfies ProposedRuns);
