import { deepEqual, equal } from 'node:assert/strict';
import { expand } from '../../src/phrase/expand';
import { checkPhrase, parsePhrase } from '../../src/phrase/parse-phrase';
import type { Phrase } from '../../src/phrase/phrase';
import { playability } from '../../src/phrase/playability/playability';
import type { Variation } from '../../src/phrase/vary/offer';
import { proposeVariations } from '../../src/phrase/vary/propose';
import { phraseFile, writePhrase } from '../../src/phrase/write-phrase';
import { chance } from '../../src/take/chance';
import { valueOf } from '../phrase/decompose/taken-apart';
import { libraryPhrases } from '../phrase/library-phrases';
import { duration, p50, timed, type BenchRow } from './bench-row';

const RUNS = 7;
const AIM_MS = 100;
const BARS = 32;
const VARIATIONS = 1000;
const SEED = 4;

const library = (): readonly Phrase[] =>
  libraryPhrases().map(({ text }) => valueOf(parsePhrase(text)));

const expanded = (phrase: Phrase) => expand(phrase, phrase.layers.length, { bars: BARS });
const propose = (phrase: Phrase, count: number) =>
  proposeVariations(phrase, count, {}, chance(SEED).share);

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
  return {
    name: `a phrase expanded, ${BARS} bars`,
    asserted: 'the same from its file',
    ...spread(took),
    note: `Each of the library's phrases, all layers on, ${RUNS} runs after a warm-up.`,
  };
}

/** So many variations of a phrase, different, sound, and each playable at every layer. */
export function checkVariations(phrase: Phrase, count: number): readonly Variation[] {
  const found = propose(phrase, count);
  equal(new Set(found.map((each) => writePhrase(each.phrase))).size, found.length);
  for (const { phrase: made } of found) {
    equal(checkPhrase(phraseFile(made)).ok, true);
    made.layers.forEach((_, i) => {
      deepEqual(playability(made, i + 1, phrase.tempoBpm).problems, []);
    });
  }
  return found;
}

/** A thousand variations of each phrase of the library that has so many. */
export function variationsRow(): BenchRow {
  const phrases = library().filter(
    (phrase) => checkVariations(phrase, VARIATIONS).length === VARIATIONS,
  );
  const took = phrases.map((phrase) => timed(RUNS, () => propose(phrase, VARIATIONS)));
  return {
    name: '1,000 variations of a phrase',
    asserted: 'different, playable at every layer',
    ...spread(took.map(p50)),
    note: `Of ${phrases.length} phrases of the library, seed ${SEED}, the median of ${RUNS} runs each; the best runs took ${took.map((each) => duration(Math.min(...each))).join(', ')}.`,
  };
}

const spread = (took: readonly number[]) => ({
  p50: duration(p50(took)),
  tail: `slowest ${duration(Math.max(...took))}`,
  aim: `< ${AIM_MS} ms`,
  met: Math.max(...took) < AIM_MS,
});
