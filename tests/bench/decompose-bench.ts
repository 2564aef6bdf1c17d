import { ok } from 'node:assert/strict';
import { decompose } from '../../src/phrase/decompose/decompose';
import { samePattern } from '../../src/phrase/decompose/same-pattern';
import type { TargetPattern } from '../../src/phrase/decompose/target-pattern';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { patternOf, takenApart, valueOf } from '../phrase/decompose/taken-apart';
import { libraryPhrases } from '../phrase/library-phrases';
import { duration, p50, timed, type BenchRow } from './bench-row';

const RUNS = 5;
const AIM_MS = 100;

/** Every phrase of the library as a pattern that is the same after taking it apart and expanding it. */
export function checkDecompose(): readonly TargetPattern[] {
  const patterns = libraryPhrases().map(({ text }) => patternOf(valueOf(parsePhrase(text))));
  for (const pattern of patterns) ok(samePattern(patternOf(takenApart(pattern)), pattern));
  return patterns;
}

/** Taking the phrases of the library apart, one at a time. */
export function decomposeRow(): BenchRow {
  const took = checkDecompose().flatMap((pattern) =>
    timed(RUNS, () => decompose(pattern, 'Taken apart')),
  );
  const slowest = Math.max(...took);
  return {
    name: 'a phrase taken apart',
    asserted: 'expands to the same notes',
    p50: duration(p50(took)),
    tail: `slowest ${duration(slowest)}`,
    aim: `< ${AIM_MS} ms`,
    met: slowest < AIM_MS,
    note: `Each of the library's phrases, root and layers found, ${RUNS} runs after a warm-up.`,
  };
}
