import { deepEqual, equal } from 'node:assert/strict';
import { DraftCheck } from '../../src/phrase/check/draft-check';
import { setNote } from '../../src/phrase/edit/edit-position';
import { expand } from '../../src/phrase/layers/expand';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import type { PhraseDraft } from '../../src/phrase/model/phrase-draft';
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

const LAYERS = 32;
/** The layer in which a note is changed: half of them lie above it. */
const EDITED = 16;
const EDITS = 15;

/** A phrase of as many layers as there can be, each with a change of its own. */
const LADDER: PhraseDraft = {
  title: 'Long ladder',
  meter: '4/4',
  tempoBpm: 90,
  subdivision: 4,
  grouping: 'R L R L K',
  cycle: 16,
  layers: Array.from({ length: LAYERS }, (_, i) => ({
    name: `Layer ${i + 1}`,
    changes: [
      {
        kind: 'set',
        where: { positions: [(i % 16) + 1] },
        set: { level: i % 2 > 0 ? 'accent' : 'ghost' },
      },
    ],
  })),
};

const noteChanged = (work: DraftCheck): DraftCheck =>
  work.with(setNote(work, EDITED, { position: 9, limb: 'L' }, { voice: 'high tom' }));

/** A note changed in a checked phrase: each layer above it is laid on once more, none below it, and nothing is wrong. */
export function checkEdit(): DraftCheck {
  const seen: number[] = [];
  const work = new DraftCheck(LADDER, undefined, (layer) => void seen.push(layer));
  deepEqual(work.errors, []);
  seen.length = 0;
  const edited = noteChanged(work);
  deepEqual(edited.errors, []);
  deepEqual(edited.phrase, new DraftCheck(edited.draft).phrase);
  const above = Array.from({ length: LAYERS - EDITED }, (_, i) => EDITED + i + 1);
  deepEqual(
    seen.filter((layer) => layer !== EDITED),
    // The pickup and the first cycle.
    above.flatMap((layer) => [layer, layer]),
  );
  return work;
}

/** One note changed and checked from its layer on, beside the check of the whole phrase. */
export function editRow(): BenchRow {
  const known = checkEdit();
  const before = Array.from({ length: EDITS }, () => new DraftCheck(LADDER, known));
  const took = before.map((work) => timed(1, () => noteChanged(work).errors, 0)[0]!);
  const whole = timed(EDITS, () => new DraftCheck(LADDER).errors);
  return {
    name: `a note changed in ${LAYERS} layers`,
    asserted: 'each layer above checked once, none below',
    p50: duration(p50(took)),
    tail: `the whole anew ${duration(p50(whole))}`,
    note: `A voice given to a note on layer ${EDITED}, written the shortest way and checked from that layer on, ${EDITS} times; beside it the check of the phrase as if nothing was known of it.`,
  };
}
