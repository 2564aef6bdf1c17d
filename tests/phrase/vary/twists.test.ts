import * as fc from 'fast-check';
import { checkDraft } from '../../../src/phrase/check/draft-check';
import { describe, expect, it } from 'vitest';
import { cycleNotes, pickupNotes } from '../../../src/phrase/layers/expand';
import { gridAt } from '../../../src/phrase/model/grid';
import type { Note } from '../../../src/phrase/model/note';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { distance } from '../../../src/phrase/vary/distance';
import { writeOut } from '../../../src/phrase/vary/write-out';
import { vary, type Twist } from '../../../src/phrase/vary/vary';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { noteGrid } from '../note-grid';
import { phraseFile, layeredPhrase, phraseOf } from '../phrase-of';
import { runCount } from '../../run-count';

const varied = (phrase: Phrase, twist: Twist): Phrase => {
  const made = vary(phrase, twist);
  if (!made) throw new Error(`${twist.kind} does not suit ${phrase.groupingText}`);
  return made.phrase;
};
const word = (n: Note) => [n.onset.toFraction(), n.graceStep, n.limb, n.voice, n.level].join(' ');
const played = (phrase: Phrase, cycles = 4) =>
  [pickupNotes(phrase, phrase.layers.length), cycleNotes(phrase, phrase.layers.length, 1, cycles)]
    .flat()
    .map(word);
/** Notes are numbered by hand only where changes do so, which pins them; pins hold from cycle to cycle unless beats or what comes round decide. */
const looksBeyondCycle = (phrase: Phrase) =>
  /"(beats|every)"/.test(JSON.stringify(phraseFile(phrase)));
const numbersStrokes = (phrase: Phrase) => JSON.stringify(phraseFile(phrase)).includes('"nth"');
const law = (check: (phrase: Phrase, by: number, more: number) => void) =>
  fc.assert(fc.property(arbitraryPhrase(), fc.nat(40), fc.nat(40), check), {
    numRuns: runCount(60),
  });

const layered = layeredPhrase(
  { grouping: 'R L L R K', cycle: 12 },
  [{ where: { positions: [1, 6] }, set: { level: 'accent' } }],
  [{ where: { limb: 'L', nth: [2, 4] }, set: { voice: 'high tom' } }],
  [{ where: { limb: 'L', not: { nth: [2, 4] } }, set: { level: 'ghost' } }],
);

describe('rotate', () => {
  it('takes along what the layers say about positions and numbers', () => {
    expect(noteGrid(layered, 4)).toEqual([
      'high tom: - - L - - - - L - - - -',
      'snare: R> L. - R - R> L. - R - R L.',
      'bass drum: - - - - K - - - - K - -',
    ]);
    expect(noteGrid(varied(layered, { kind: 'rotate', by: 2 }), 4)).toEqual([
      'high tom: L - - - - L - - - - - -',
      'snare: - R - R> L. - R - R L. R> L.',
      'bass drum: - - K - - - - K - - - -',
    ]);
  });

  it('lawWholeCycle: by a whole cycle, or there and back, it is the same phrase', () => {
    law((phrase, by) => {
      fc.pre(!(numbersStrokes(phrase) && looksBeyondCycle(phrase)));
      const once = vary(phrase, { kind: 'rotate', by: phrase.cycle });
      if (!numbersStrokes(phrase)) expect(once).toBeDefined();
      if (once) expect(played(once.phrase)).toEqual(played(phrase));
      const there = vary(phrase, { kind: 'rotate', by });
      const back = there && vary(there.phrase, { kind: 'rotate', by: -by });
      if (back) expect(played(back.phrase)).toEqual(played(phrase));
    });
  });

  it('lawRotationsAddUp', () => {
    law((phrase, by, more) => {
      const first = vary(phrase, { kind: 'rotate', by });
      const both = first && vary(first.phrase, { kind: 'rotate', by: more });
      const sum = vary(phrase, { kind: 'rotate', by: by + more });
      if (both && sum) expect(played(both.phrase)).toEqual(played(sum.phrase));
    });
  });

  it('keeps the count of notes where no change looks at the meter', () => {
    law((phrase, by) => {
      fc.pre(!/"(beats|every|accentEvery|nth|displace)"/.test(JSON.stringify(phraseFile(phrase))));
      const made = vary(phrase, { kind: 'rotate', by })!;
      expect(played(made.phrase)).toHaveLength(played(phrase).length);
    });
  });
});

describe('mirror', () => {
  it('lawTwiceIsIdentity: the same notes and the very same layers', () => {
    law((phrase) => {
      const twice = vary(vary(phrase, { kind: 'mirror' })!.phrase, { kind: 'mirror' })!.phrase;
      expect(played(twice)).toEqual(played(phrase));
      expect(phraseFile(twice).layers).toEqual(phraseFile(phrase).layers);
    });
  });

  it('exchanges hands and nothing else', () => {
    law((phrase) => {
      const swap = { R: 'L', L: 'R', K: 'K', F: 'F' } as const;
      const layer = phrase.layers.length;
      const mirrored = cycleNotes(vary(phrase, { kind: 'mirror' })!.phrase, layer, 1, 2);
      const exchanged = cycleNotes(phrase, layer, 1, 2).map((n) => ({ ...n, limb: swap[n.limb] }));
      expect(mirrored.map(word).sort()).toEqual(exchanged.map(word).sort());
    });
  });
});

describe('displace and subdivision', () => {
  it('the same number of partials is no variation', () => {
    law((phrase) => {
      const { subdivision } = gridAt(phrase, phrase.layers.length);
      expect(vary(phrase, { kind: 'subdivision', subdivision })).toBeUndefined();
    });
  });

  it('lawThereAndBack: displaced by n and by -n it is the same phrase; displacements of less than a cycle add up', () => {
    law((phrase, by, more) => {
      const a = by % phrase.cycle;
      const b = Math.min(more, phrase.cycle - 1 - a);
      const plain = phraseOf({ grouping: phrase.groupingText, cycle: phrase.cycle });
      const there = varied(plain, { kind: 'displace', by: a });
      expect(played(varied(there, { kind: 'displace', by: -a }))).toEqual(played(plain));
      const sum = varied(plain, { kind: 'displace', by: a + b });
      expect(played(varied(there, { kind: 'displace', by: b }))).toEqual(played(sum));
    });
  });

  // Realignment, least common multiple of cycle and bar: three over triplets of 4/4 (12) in 1 bar, over eighths (8) in 3.
  it('three over triplets against three over eighths: the same strokes, another place to meet the bar', () => {
    const triplets = phraseOf({ grouping: 'R L K', subdivision: 3 });
    const eighths = varied(triplets, { kind: 'subdivision', subdivision: 2 });
    const starts = (phrase: Phrase) =>
      cycleNotes(phrase, phrase.layers.length, 1, 4)
        .filter(({ limb }) => limb === 'R')
        .map(({ onset }) => onset.toFraction());
    expect(starts(triplets)).toEqual(['0', '1', '2', '3']);
    expect(starts(eighths)).toEqual(['0', '3/2', '3', '9/2']);
  });
});

describe('change the cycle', () => {
  it('cuts what is beyond and starts the grouping over', () => {
    expect(noteGrid(varied(layered, { kind: 'cycle', cycle: 7 }), 1)).toEqual([
      'snare: R L L R - R L',
      'bass drum: - - - - K - -',
    ]);
    const phrase = layeredPhrase({ grouping: 'R L', cycle: 4 }, [
      { where: { positions: [1, 4] }, set: { level: 'accent' } },
      { where: { positions: [3] }, set: { voice: 'ride' } },
    ]);
    expect(noteGrid(varied(phrase, { kind: 'cycle', cycle: 2 }), 2)).toEqual(['snare: R> L']);
    expect(noteGrid(varied(phrase, { kind: 'cycle', cycle: 5 }), 2)).toEqual([
      'ride: - - R - -',
      'snare: R> L - L> R',
    ]);
  });
});

describe('voices', () => {
  it('swapped twice they are back; swapped with one that rests, they move', () => {
    const twist: Twist = { kind: 'swap voices', voices: ['snare', 'high tom'] };
    const swapped = varied(layered, twist);
    expect(noteGrid(swapped, 5)).toEqual([
      'high tom: R> L. - R - R> L. - R - R L.',
      'snare: - - L - - - - L - - - -',
      'bass drum: - - - - K - - - - K - -',
    ]);
    expect(distance(layered, varied(swapped, twist))).toBe(0);
    const moved = varied(layered, { kind: 'swap voices', voices: ['high tom', 'ride'] });
    expect(noteGrid(moved, 5)[0]).toBe('ride: - - L - - - - L - - - -');
  });

  it('by limb, and by limb and level', () => {
    const twist: Twist = { kind: 'orchestrate', limb: 'R', voice: 'floor tom', level: 'accent' };
    expect(noteGrid(varied(layered, twist), 5)).toContain('floor tom: R> - - - - R> - - - - - -');
    const all = varied(layered, { kind: 'orchestrate', limb: 'R', voice: 'ride' });
    expect(noteGrid(all, 5)[0]).toBe('ride: R> - - R - R> - - R - R -');
  });
});

describe('double strokes', () => {
  // Percussive Arts Society, International Drum Rudiments: single stroke roll RLRL, double stroke open roll RRLLRRLL.
  it('makes the double stroke open roll of a single stroke roll', () => {
    const doubled = varied(phraseOf({ grouping: 'R L R L', subdivision: 2 }), {
      kind: 'double strokes',
    });
    expect([doubled.groupingText, doubled.subdivision, doubled.cycle]).toEqual(['R R L L', 4, 8]);
  });

  it('lawHandsDouble: twice the notes of the hands, the same of the feet, in the same time', () => {
    law((phrase) => {
      const made = vary(phraseOf({ grouping: phrase.groupingText, cycle: phrase.cycle }), {
        kind: 'double strokes',
      })!;
      const plain = phraseOf({ grouping: phrase.groupingText, cycle: phrase.cycle });
      const count = (of: Phrase, limb: string) =>
        cycleNotes(of, 1, 1, 1).filter((n) => n.limb === limb && n.graceStep === 0).length;
      for (const hand of ['R', 'L']) expect(count(made.phrase, hand)).toBe(2 * count(plain, hand));
      for (const foot of ['K', 'F']) expect(count(made.phrase, foot)).toBe(count(plain, foot));
      expect(made.phrase.cycle / made.phrase.subdivision).toBe(plain.cycle / plain.subdivision);
    });
  });

  it('keeps accents on the first of two, and the voice on both', () => {
    const phrase = layeredPhrase({ grouping: 'R L', subdivision: 2 }, [
      { where: { positions: [1] }, set: { level: 'accent' } },
      { where: { positions: [1] }, set: { voice: 'ride' } },
    ]);
    expect(noteGrid(varied(phrase, { kind: 'double strokes' }), 2)).toEqual([
      'ride: R> R - -',
      'snare: - - L L',
    ]);
  });

  it('keeps what comes round whatever the cycle where it was', () => {
    const phrase = layeredPhrase({ grouping: 'R L', subdivision: 2 }, [
      { where: { every: { partials: 3, at: [2] } }, set: { voice: 'ride' } },
    ]);
    expect(noteGrid(varied(phrase, { kind: 'double strokes' }), 2, 3)).toEqual([
      'ride: - - L L - - - - R R - -',
      'snare: R R - - R R L L - - L L',
    ]);
  });

  it('is not offered where places would come round later than a phrase can say', () => {
    const phrase = layeredPhrase({ grouping: 'R L', subdivision: 2 }, [
      { where: { every: { partials: 2049, at: [1] } }, set: { voice: 'ride' } },
    ]);
    expect(vary(phrase, { kind: 'double strokes' })).toBeUndefined();
  });
});

describe('merge', () => {
  it('runs both cycles until they coincide, the second where its limb is free', () => {
    const first = phraseOf({ grouping: 'R L' });
    const second = layeredPhrase({ title: 'Bell Wharf', grouping: 'R K K' }, [
      { where: { limb: 'R' }, set: { voice: 'crash' } },
    ]);
    const merged = varied(first, { kind: 'merge', with: second });
    expect(merged.cycle).toBe(6);
    expect(noteGrid(merged, 2)).toEqual([
      'crash: - - - R - -',
      'snare: R L R L R L',
      'bass drum: - K K - K K',
    ]);
  });

  it('brings flams and drags along where the other hand is free', () => {
    const first = phraseOf({ grouping: 'K - L K' });
    const second = phraseOf({ title: 'Bell Wharf', grouping: 'lR llR lR -' });
    const made = vary(first, { kind: 'merge', with: second })!;
    expect(noteGrid(made.phrase, 2)).toEqual(['snare: lR llR RL -', 'bass drum: K - - K']);
    expect(made.sentence).toBe(
      'The strokes of "Bell Wharf" sound over this phrase wherever its limbs are free.',
    );
  });

  it('is not offered over another meter or subdivision', () => {
    const first = phraseOf({ grouping: 'R L' });
    for (const file of [{ meter: '3/4' }, { subdivision: 3 }])
      expect(
        vary(first, { kind: 'merge', with: phraseOf({ grouping: 'K', ...file }) }),
      ).toBeUndefined();
  });
});

describe('a cycle written out', () => {
  it('lawSoundsTheSame', () => {
    law((phrase, more) => {
      fc.pre(!(numbersStrokes(phrase) && looksBeyondCycle(phrase)));
      const times = 1 + (more % 4);
      const checked = checkDraft(writeOut(phrase, times * phrase.cycle, (i) => i % phrase.cycle));
      if (!checked.ok) return;
      expect(played(checked.value, 2)).toEqual(played(phrase, 2 * times));
    });
  });
});
