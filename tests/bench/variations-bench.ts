import { deepEqual, equal } from 'node:assert/strict';
import { checkPhrase, parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import { playability } from '../../src/phrase/playability/playability';
import { proposeVariations } from '../../src/phrase/vary/propose';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { chance } from '../../src/time/chance';
import { valueOf } from '../phrase/decompose/taken-apart';
import { libraryPhrases } from '../phrase/library-phrases';
import { duration, p50, type BenchRow } from './bench-row';
import { withBundledProposals, type RunTime } from './bundled-proposals';
import { phraseFile } from '../phrase/phrase-of';

const VARIATIONS = 1000;
/** As many as the screen lists. */
const LISTED = 8;
const SEED = 4;
const AIM_MS = 100;
const THREADS = 3;
/** On each thread. */
const RUNS = 8;

/** The files of so many variations of a phrase: different, sound, and each playable at every layer. */
export function checkVariations(phrase: Phrase, count: number): readonly string[] {
  const found = proposeVariations(phrase, count, {}, chance(SEED).share);
  const texts = found.map((each) => writePhrase(each.phrase));
  equal(new Set(texts).size, count);
  for (const { phrase: made } of found) {
    equal(checkPhrase(phraseFile(made)).ok, true);
    made.layers.forEach((_, i) => {
      deepEqual(playability(made, i + 1, phrase.tempoBpm).problems, []);
    });
  }
  return texts;
}

/** What the runs took, by phrase and thread. */
export interface PhraseRuns {
  readonly name: string;
  readonly threads: readonly (readonly RunTime[])[];
}

/** Runs on threads of their own, after showing that each of them proposes what was checked. */
export const checkedRuns = (
  phrases: readonly { readonly name: string; readonly text: string }[],
  { count, runs, threads }: { count: number; runs: number; threads: number },
): Promise<readonly PhraseRuns[]> =>
  withBundledProposals(async (propose) => {
    const measured: PhraseRuns[] = [];
    for (const { name, text } of phrases) {
      const checked = checkVariations(valueOf(parsePhrase(text)), count);
      const took: (readonly RunTime[])[] = [];
      for (let thread = 0; thread < threads; thread++) {
        const { times, texts } = await propose({ text, count, seed: SEED, runs });
        deepEqual(texts, checked);
        took.push(times);
      }
      measured.push({ name, threads: took });
    }
    return measured;
  });

/** The list of the screen and a thousand variations of each phrase of the library: the first time, and from then on. */
export async function variationRows(): Promise<BenchRow[]> {
  const phrases = libraryPhrases();
  const list = await checkedRuns(phrases, { count: LISTED, runs: 1, threads: THREADS });
  const many = await checkedRuns(phrases, { count: VARIATIONS, runs: RUNS, threads: THREADS });
  const thousand = (when: string, from: number, to: number) =>
    variationRow(`1,000 variations of a phrase, ${when}`, many, from, to);
  return [
    variationRow(`${LISTED} variations, a list of the screen, first time`, list, 0, 1),
    thousand('first time', 0, 1),
    thousand('second time', 1, 2),
    thousand(`third to ${RUNS}th time`, 2, RUNS),
  ];
}

function variationRow(
  name: string,
  measured: readonly PhraseRuns[],
  from: number,
  to: number,
): BenchRow {
  const medians = measured.map((phrase) => {
    const times = phrase.threads.flatMap((took) => took.slice(from, to));
    return {
      name: phrase.name,
      ms: p50(times.map((one) => one.ms)),
      processorMs: processorP50(times),
    };
  });
  const slowest = medians.reduce((a, b) => (b.ms > a.ms ? b : a));
  const busiest = Math.max(...medians.map((one) => one.processorMs));
  return {
    name,
    asserted: 'different, playable at every layer',
    p50: duration(p50(medians.map(({ ms }) => ms))),
    tail: `slowest ${duration(slowest.ms)}, ${slowest.name}`,
    aim: `< ${AIM_MS} ms`,
    met: slowest.ms < AIM_MS,
    note: `${HOW} Of processors' time, which other work on the machine changes less: ${duration(processorP50(medians))}, at most ${duration(busiest)}.`,
  };
}

const HOW = `The engine bundled as the app's workers are, in Node, on ${THREADS} threads for each phrase of the library, seed ${SEED}; the middle phrase and the slowest, each by its median. The first time a thread's code is cold, as on a page that has just been opened.`;

const processorP50 = (times: readonly { readonly processorMs: number }[]): number =>
  p50(times.map((one) => one.processorMs));
