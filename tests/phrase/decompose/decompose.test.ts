import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decompose } from '../../../src/phrase/decompose/decompose';
import { descriptionLength } from '../../../src/phrase/decompose/description-length';
import { samePattern } from '../../../src/phrase/decompose/same-pattern';
import { splitIntoLayers } from '../../../src/phrase/decompose/split-into-layers';
import { targetPattern, type TargetPattern } from '../../../src/phrase/decompose/target-pattern';
import { checkPhrase, parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { MAX_CYCLE } from '../../../src/phrase/model/phrase-file';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { changeWords } from '../../../src/phrase/model/change-words';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { libraryPhrases } from '../library-phrases';
import { phraseFile, layeredPhrase } from '../phrase-of';
import { arbitraryPattern } from './arbitrary-pattern';
import { heard, patternFrom, patternOf, takenApart, valueOf } from './taken-apart';
import { longRunCount } from '../../run-count';

describe('a phrase of the library', () => {
  it.each(libraryPhrases())('$name is taken apart in no more words than by hand', ({ text }) => {
    const phrase = valueOf(parsePhrase(text));
    const proposal = takenApart(patternOf(phrase));
    expect(heard(proposal, proposal.layers.length, 20)).toEqual(
      heard(phrase, phrase.layers.length, 20),
    );
    expect(descriptionLength(proposal)).toBeLessThanOrEqual(descriptionLength(phrase));
  });
});

describe('laws of taking apart', () => {
  const onPatterns = (
    runs: number,
    law: (found: TargetPattern, phrase: ReturnType<typeof takenApart>) => void,
  ) => {
    const count = longRunCount(runs, 24);
    let patterns = 0;
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const pattern = targetPattern(phrase, phrase.layers.length);
        if (!pattern.ok || pattern.value.notes.length === 0) return;
        patterns += 1;
        law(pattern.value, phrase);
      }),
      { numRuns: count },
    );
    // Nearly every phrase sounds; of a few, chance may leave some out.
    expect(patterns).toBeGreaterThan(count * 0.9 - 10);
  };

  it('expanding the proposal gives the target back', () => {
    onPatterns(1200, (pattern, phrase) => {
      const proposal = takenApart(pattern);
      expect(heard(proposal, proposal.layers.length, 7)).toEqual(
        heard(phrase, phrase.layers.length, 7),
      );
    });
  });

  it('expanding the proposal gives any notes back, whether or not there is order in them', () => {
    fc.assert(
      fc.property(arbitraryPattern(), (pattern) => {
        const again = patternOf(takenApart(pattern));
        expect(samePattern(again, pattern)).toBe(true);
      }),
      { numRuns: longRunCount(300) },
    );
  });

  it('lawSplitIntoLayers: whatever a phrase is, what comes of it sounds the same', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const apart = splitIntoLayers(phrase);
        expect(apart.title).toBe(phrase.title);
        expect(heard(apart, apart.layers.length, 7)).toEqual(
          heard(phrase, phrase.layers.length, 7),
        );
      }),
      { numRuns: longRunCount(600) },
    );
  });

  it('a proposal that keeps the cycle has the target’s, and gives the target back', () => {
    onPatterns(200, (pattern, phrase) => {
      if (pattern.cyclePartials > MAX_CYCLE) return;
      const proposal = valueOf(decompose(pattern, 'Taken apart', { cycle: pattern.cyclePartials }));
      expect(proposal.cycle).toBe(pattern.cyclePartials);
      expect(heard(proposal, proposal.layers.length, 7)).toEqual(
        heard(phrase, phrase.layers.length, 7),
      );
    });
  });

  it('a proposal is a phrase, the same each time, and every layer changes something', () => {
    onPatterns(120, (pattern) => {
      const proposal = takenApart(pattern);
      expect(checkPhrase(phraseFile(proposal)).ok).toBe(true);
      expect(writePhrase(takenApart(pattern))).toBe(writePhrase(proposal));
      for (let layer = 2; layer <= proposal.layers.length; layer++) {
        expect(proposal.layers[layer - 1]!.changes.length).toBeGreaterThan(0);
        const bars = Math.ceil(pattern.cyclePartials / pattern.subdivision) + 2;
        expect(heard(proposal, layer, bars)).not.toEqual(heard(proposal, layer - 1, bars));
      }
    });
  });
});

it('tells two unlike grace notes apart where a stroke changes its limb across the bar line', () => {
  const phrase = layeredPhrase(
    { meter: '9/16', subdivision: 9, grouping: '- K F rlR R rlR F rlR', cycle: 22 },
    [{ where: { beats: ['1'] }, set: { limb: 'R' } }],
  );
  const proposal = takenApart(patternOf(phrase));
  expect(heard(proposal, proposal.layers.length, 7)).toEqual(heard(phrase, 2, 7));
});

it('leaves grace notes of a stroke’s own hand as the grouping has them where a pickup gets its drag', () => {
  const drag = {
    where: { limb: 'F' as const },
    set: { limb: 'R' as const, grace: 'drag' as const },
  };
  const phrase = layeredPhrase({ grouping: '- rlR llR' }, [
    { pickup: [{ partialsBefore: 1, limb: 'F' }] },
    drag,
  ]);
  const proposal = takenApart(patternOf(phrase));
  expect(heard(proposal, proposal.layers.length, 7)).toEqual(heard(phrase, 2, 7));
});

it('tells two unlike grace notes apart where they rest at times, in a pattern longer than any cycle', () => {
  const phrase = layeredPhrase({ meter: '9/16', subdivision: 7, grouping: 'R rlR', cycle: 23 }, [
    { where: { every: { partials: 42, at: [2] } }, set: { grace: 'none' } },
  ]);
  const proposal = takenApart(patternOf(phrase));
  expect(heard(proposal, proposal.layers.length, 46)).toEqual(heard(phrase, 2, 46));
});

it.each([
  ['both', 'none'],
  ['the first', 'flam'],
] as const)('lets %s of two unlike grace notes rest', (_, grace) => {
  const phrase = layeredPhrase({ grouping: 'R rlR', cycle: 9 }, [
    { where: { beats: ['1'] }, set: { grace } },
  ]);
  const proposal = takenApart(patternOf(phrase));
  expect(heard(proposal, proposal.layers.length, 9)).toEqual(heard(phrase, 2, 9));
});

describe('what comes round whatever the cycle', () => {
  const told = ({ groupingText, layers }: Phrase) => [
    groupingText,
    ...layers.flatMap(({ changes }) => changes.map(changeWords)),
  ];

  it('two accent cycles over each other', () => {
    const phrase = layeredPhrase({ grouping: 'R L K', cycle: 16 }, [
      { accentEvery: 5, from: 2 },
      { accentEvery: 9 },
    ]);
    expect(told(takenApart(patternOf(phrase)))).toEqual([
      'R L K',
      'accent every 5 partials from partial 2 on',
      'accent every 9 partials from partial 1 on',
    ]);
  });

  it('a voice that goes round by itself', () => {
    const phrase = layeredPhrase({ grouping: 'R L L', cycle: 16 }, [
      { where: { every: { partials: 7, at: [1, 4] } }, set: { voice: 'floor tom' } },
    ]);
    expect(told(takenApart(patternOf(phrase)))).toEqual([
      'R L L',
      'partials 1, 4 of every 7: on floor tom',
    ]);
  });

  it('a stroke that is left out against the bar', () => {
    const phrase = layeredPhrase({ grouping: 'R L R L L K', cycle: 7 }, [
      { where: { beats: ['2', '4'] }, set: { silent: true } },
    ]);
    expect(told(takenApart(patternOf(phrase)))).toEqual(['R L R L L K', 'beats 2, 4: silent']);
  });

  it('a pattern longer than any cycle', () => {
    const notes = [0, 1, 2, 3].map((bar) => ({
      ...patternFrom('R').notes[0]!,
      partial: bar * 256 + bar * bar,
    }));
    const pattern = patternFrom('R', { cyclePartials: 1024, notes });
    const { cycle, ...proposal } = takenApart(pattern);
    expect(cycle).toBeLessThanOrEqual(MAX_CYCLE);
    expect(samePattern(patternOf({ cycle, ...proposal }), pattern)).toBe(true);
  });
});

it('leaves a phrase as it is that takes too long to repeat', () => {
  const phrase = layeredPhrase({ grouping: 'R L K', cycle: 17 }, [
    { accentEvery: 19 },
    { accentEvery: 23 },
    { where: { limb: 'L' }, set: { voice: 'floor tom', level: 'ghost' } },
  ]);
  expect(splitIntoLayers(phrase)).toBe(phrase);
});

it('tells two grace notes of one hand apart', () => {
  const phrase = layeredPhrase(
    { grouping: 'rlR L' },
    [{ where: { grace: true, limb: 'R' }, set: { voice: 'floor tom', level: 'ghost' } }],
    [{ where: { grace: true, limb: 'R' }, set: { limb: 'L' } }],
  );
  const pattern = patternOf(phrase);
  expect(pattern.notes[0]!.graces).toEqual(['L', 'L']);
  expect(samePattern(patternOf(takenApart(pattern)), pattern)).toBe(true);
});

describe('the order of the layers', () => {
  it('is sticking, accents, voices, pickup, added strokes, grace notes, dynamics', () => {
    const phrase = layeredPhrase(
      { grouping: 'R L', cycle: 16 },
      [{ where: { positions: [1, 4, 7, 11] }, set: { level: 'accent' } }],
      [{ where: { limb: 'R', level: 'accent' }, set: { voice: 'floor tom' } }],
      [{ pickup: [{ partialsBefore: 1, limb: 'L', level: 'accent' }] }],
      [{ add: [{ position: 5, limb: 'F' }] }],
      [{ where: { voice: 'floor tom' }, set: { grace: 'flam' } }],
      [{ where: { voice: 'snare', level: 'tap' }, set: { level: 'ghost' } }],
    );
    const names = takenApart(patternOf(phrase)).layers.map((layer) => layer.name);
    expect(names).toEqual([
      'Sticking',
      'Accents',
      'Toms',
      'Pickup',
      'Hi-hat foot',
      'Grace notes',
      'Ghosts',
    ]);
  });

  it('puts a displacement last, unless something looks at the meter', () => {
    const names = (grouping: string, where: { limb: 'R'; beats?: string[] }) =>
      takenApart(
        patternOf(
          layeredPhrase({ grouping }, [{ displace: 1 }], [{ where, set: { voice: 'crash' } }]),
        ),
      ).layers.map((layer) => layer.name);
    expect(names('R L K L', { limb: 'R' })).toEqual(['Sticking', 'Cymbals', '1 partial later']);
    expect(names('R L K', { limb: 'R', beats: ['1'] })).toEqual([
      'Sticking',
      '1 partial later',
      'Cymbals',
    ]);
  });
});

it('a displacement that is not heard on the root alone goes with the accents it is for', () => {
  const phrase = layeredPhrase({ grouping: 'L - K', cycle: 12, meter: '5/4' }, [
    { accentEvery: 4 },
    { displace: -3 },
  ]);
  const { layers } = takenApart(patternOf(phrase));
  expect(layers.map((layer) => layer.name)).toEqual(['Sticking', 'Accents']);
  expect(layers[1]!.changes.map(({ kind }) => kind)).toEqual(['displace', 'accentEvery']);
});

describe('what cannot be taken apart', () => {
  it.each([
    ['no notes', patternFrom('- -'), 'PATTERN_EMPTY'],
    ['an unknown meter', patternFrom('R L', { meter: '4/5' }), 'PATTERN_WRONG'],
    ['a part of a partial', patternFrom('R L', { cyclePartials: 1.5 }), 'PATTERN_WRONG'],
    ['a note behind the end', patternFrom('R L', { cyclePartials: 1 }), 'PATTERN_WRONG'],
    [
      'a limb twice at once',
      patternFrom('R L', { notes: [...patternFrom('R').notes, ...patternFrom('R').notes] }),
      'PATTERN_WRONG',
    ],
    [
      'a pickup longer than a bar',
      patternFrom('R L', {
        pickup: [{ partialsBefore: 17, limb: 'R', voice: 'snare', level: 'tap' }],
      }),
      'PATTERN_BEYOND_LAYERS',
    ],
  ] as const)('%s', (_, pattern, code) => {
    const answer = decompose(pattern, 'Taken apart');
    expect(answer.ok).toBe(false);
    expect(!answer.ok && answer.errors[0]!.code).toBe(code);
  });
});
