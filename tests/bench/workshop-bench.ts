import { deepEqual, equal } from 'node:assert/strict';
import { expand } from '../../src/phrase/layers/expand';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { valueOf } from '../phrase/decompose/taken-apart';
import { libraryPhrases } from '../phrase/library-phrases';
import { duration, p50, timed, type BenchRow } from './bench-row';

const RUNS = 7;
const AIM_MS = 100;
const BARS = 32;

const library = (): readonly Phrase[] =>
  libraryPhrases().map(({ text }) => valueOf(parsePhrase(text)));

const expanded = (phrase: Phrase) => expand(phrase, phrase.layers.length, { bars: BARS });

/** The library, every phrase of which expands to the same notes from its own file, all within the bars asked for. */
export function checkExpand(): readonly Phrase[] {
  const phrases = library();
  for (const phrase of phrases) {
    const notes = expanded(phrase);
    deepEqual(expanded(valueOf(parsePhrase(writePhrase(phrase)))), notes);
    equal(
      notes.every(({ bar }) => bar <= BARS),
      true,
    );
  }
  return phrases;
}

/** Expanding each phrase of the library to 32 bars, one at a time. */
export function expandRow(): BenchRow {
  const took = checkExpand().flatMap((phrase) => timed(RUNS, () => expanded(phrase)));
  const slowest = Math.max(...took);
  return {
    name: `a phrase expanded, ${BARS} bars`,
    asserted: 'the same from its file',
    p50: duration(p50(took)),
    tail: `slowest ${duration(slowest)}`,
    aim: `< ${AIM_MS} ms`,
    met: slowest < AIM_MS,
    note: `Each of the library's phrases, all layers on, ${RUNS} runs after a warm-up.`,
  };
}
