import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/score/assess';
import { chance } from '../../../src/time/chance';
import { FAULTS, type Variant } from './faults';
import { GROOVES_OF_FUJII, PIECES } from './phrases';
import { judgementOf, strokesOf, type Bend } from './player';
import { NOISES, scatterMs } from './scatter';

const clean: Bend = (intent) => intent;
const QUIET = { noise: 'white', sdMs: 0 } as const;

/** Lag-1 autocorrelation as NIST StRD defines it. */
function lag1(values: readonly number[]): number {
  const at = mean([...values]);
  let next = 0;
  let same = 0;
  values.forEach((value, i) => {
    same += (value - at) ** 2;
    if (i > 0) next += (value - at) * (values[i - 1]! - at);
  });
  return next / same;
}

const correlation = (a: readonly number[], b: readonly number[]): number => {
  const [atA, atB] = [mean([...a]), mean([...b])];
  const sum = a.reduce((all, value, i) => all + (value - atA) * (b[i]! - atB), 0);
  return sum / (a.length - 1) / sampleStandardDeviation([...a]) / sampleStandardDeviation([...b]);
};

/** So many takes, one after the other. */
function offsets(noise: (typeof NOISES)[number], takes: number) {
  const notes = PIECES.round16.notes(64);
  const { normal } = chance(5);
  return Array.from({ length: takes }, () => scatterMs(notes, noise, 12, normal)).map((all) => ({
    all,
    ofVoice: (voice: string) => all.filter((_, i) => notes[i]!.note.voice === voice),
  }));
}

describe('how the players scatter', () => {
  it.each(NOISES)('%s: 12 ms about 0, from the first stroke of a take on', (noise) => {
    const takes = offsets(noise, 300);
    const first = takes.map(({ all }) => all[0]!);
    const every = takes.flatMap(({ all }) => all);
    expect(Math.abs(mean(every))).toBeLessThan(0.2);
    expect(sampleStandardDeviation(every)).toBeCloseTo(12, 0);
    // Of 300 values the standard deviation has an error of 4 %.
    expect(sampleStandardDeviation(first)).toBeGreaterThan(10.5);
    expect(sampleStandardDeviation(first)).toBeLessThan(13.5);
  });

  it('does so alone, or with the stroke before', () => {
    const r = (noise: (typeof NOISES)[number]) =>
      mean(offsets(noise, 40).map(({ all }) => lag1(all)));
    expect(r('white')).toBeCloseTo(0, 1);
    expect(r('AR(1) 0.5')).toBeCloseTo(0.5, 1);
  });

  it('shares a third of the variance between the voices', () => {
    const takes = offsets('AR(1) 0.7 shared', 200);
    // The common part has moved on by the strokes between two of a voice: of floor and high toms it is of no use here,
    // as both come thrice a bar.
    const floor = takes.flatMap(({ ofVoice }) => ofVoice('floor tom'));
    const high = takes.flatMap(({ ofVoice }) => ofVoice('high tom'));
    const apart = [-3, 1, -2];
    const expected = mean(apart.map((strokes) => 0.7 ** Math.abs(strokes))) / 3;
    expect(correlation(floor, high)).toBeCloseTo(expected, 1);
    // Two strokes of the snare, next to each other: 2/3 of its own process and 1/3 of the common one.
    const pairs = takes.map(({ all }) => all.filter((_, i) => i % 16 < 2));
    const at = (which: number) => pairs.flatMap((all) => all.filter((_, i) => i % 2 === which));
    expect(correlation(at(0), at(1))).toBeCloseTo(0.7, 1);
  });
});

describe('the notes and the judgement', () => {
  it.each(
    [...Object.values(PIECES), ...GROOVES_OF_FUJII].map((piece) => [piece.name, piece] as const),
  )('%s: a take is judged as the engine judges it', (_, piece) => {
    for (const [i, bend] of [clean, FAULTS[5]!.variants[0]!.bend].entries()) {
      const strokes = strokesOf(piece, 8, bend, { noise: 'white', sdMs: 12 }, 70 + i);
      expect(judgementOf(piece, 8, strokes)).toEqual(assess(piece.plan, strokes, piece.kit));
    }
  });

  it('are the same objects from take to take', () => {
    const { notes } = PIECES.round16;
    expect(notes(4)).toEqual(notes(8).slice(0, notes(4).length));
    notes(4).forEach((due, i) => expect(due).toBe(notes(8)[i]));
  });

  it('have one in 200 missed, 3 in 1,000 extra, and no level wrong but by a hair', () => {
    const piece = PIECES.sixteenths16;
    const judgements = Array.from({ length: 60 }, (_, seed) =>
      judgementOf(piece, 16, strokesOf(piece, 16, clean, QUIET, seed)),
    );
    const notes = judgements.flatMap((one) => one.notes);
    const share = (times: number) => times / notes.length;
    const missed = share(notes.filter(({ verdict }) => verdict === 'missed').length);
    // Of 22,000 notes 0.5 % has an error of 0.05 %. A stray stroke now and then answers a note that was left out.
    expect(missed).toBeGreaterThan(0.003);
    expect(missed).toBeLessThan(0.007);
    const extras = share(judgements.flatMap((one) => one.extras).length);
    expect(extras).toBeGreaterThan(0.0015);
    expect(extras).toBeLessThan(0.0045);
    const off = share(
      notes.filter((one) => (one.levelVerdict ?? 'as written') !== 'as written').length,
    );
    expect(off).toBeLessThan(0.005);
  });
});

/** What a fault does to an even player, note by note, beside the same player without it. */
function without(variant: Variant) {
  const { piece, bars } = variant;
  const of = (bend: Bend) => judgementOf(piece, bars, strokesOf(piece, bars, bend, QUIET, 11));
  return { faulty: of(variant.bend), even: of(clean) };
}

const ofFault = (name: string) => {
  const fault = FAULTS.find((one) => one.name.startsWith(name));
  if (!fault) throw new Error(`no fault ${name}`);
  return fault.variants;
};

describe('the faults in time', () => {
  it.each([
    ['limb', 12],
    ['partial', 15],
    ['last sixteenth', 15],
    ['one position', 20],
    ['one transition', 20],
    ['unisons', 20],
  ])('%s: its notes are %f ms off and no others', (name, ms) => {
    for (const variant of ofFault(name)) {
      const { faulty } = without(variant);
      const [{ sign, touches }] = variant.truths as [Variant['truths'][0]];
      const sure = faulty.notes.filter(
        ({ verdict }) => verdict !== 'missed' && verdict !== 'wrong voice',
      );
      // Stray strokes now and then take a note.
      const strange = sure.filter((one) => one.offsetUs !== (touches!(one) ? sign * ms * 1000 : 0));
      expect(strange.length, variant.what).toBeLessThanOrEqual(3);
      expect(sure.filter(touches!).length, variant.what).toBeGreaterThanOrEqual(11);
    }
  });

  it('have as many occurrences as they are said to have', () => {
    const occurrences = (name: string) =>
      ofFault(name).map(
        ({ piece, bars, notes }) => piece.notes(bars).filter((due) => notes.has(due)).length,
      );
    expect(Math.min(...occurrences('one position'))).toBeGreaterThanOrEqual(16);
    expect(Math.min(...occurrences('one transition'))).toBeGreaterThanOrEqual(24);
    expect(Math.min(...occurrences('unisons'))).toBeGreaterThanOrEqual(25);
    expect(Math.min(...occurrences('own notes'))).toBeGreaterThanOrEqual(4);
    expect(Math.min(...occurrences('spread'))).toBeGreaterThanOrEqual(64 * 12);
  });
});

describe('the faults of tempo', () => {
  /** How much later than written the last stroke comes, in bars. */
  const laterBars = ({ piece, bars, bend }: Variant) => {
    const last = strokesOf(piece, bars, bend, QUIET, 3).at(-1)!.timeUs;
    const barUs = (4 * 60e6) / piece.plan.phrase.tempoBpm;
    return (last - strokesOf(piece, bars, clean, QUIET, 3).at(-1)!.timeUs) / barUs;
  };

  it.each([
    // The last stroke is a partial or two from the end, so much less than the whole bars is lost or gained.
    ['tempo 1 %', [8 / 0.99 - 8, 8 / 1.01 - 8]],
    ['tempo 5 %', [8 / 0.95 - 8, 8 / 1.05 - 8]],
    ['rushing 0.3 %, 8', [-0.024]],
    ['rushing 0.3 %, 16', [-0.048]],
    ['rushing 0.3 %, 32', [-0.096]],
    ['dragging 0.3 %, 32', [0.096]],
    // Bars of 1, 0.997, 0.994 ... 0.979: 0 + 1 + ... + 7 is 28.
    ['accelerating', [-0.084]],
    ['slowing', [0.084]],
  ] as const)('%s: the last of 8 to 32 bars ends %j bars later', (name, ends) => {
    const variants = ofFault(name);
    variants.forEach((variant, i) => {
      const end = ends[Math.floor((i * ends.length) / variants.length)]!;
      const share = laterBars(variant) / end;
      expect(share, variant.piece.name).toBeGreaterThan(0.94);
      expect(share, variant.piece.name).toBeLessThan(1.001);
    });
  });

  it('swing: the off-beats lie where the other ratio has them, the beats where they are', () => {
    for (const [name, share, written] of [
      ['swing 1.5 for 2', 3 / 5, 2 / 3],
      ['swing 2 for 1.5', 2 / 3, 3 / 5],
    ] as const)
      for (const variant of ofFault(name)) {
        const { faulty } = without(variant);
        const beatUs = 60e6 / variant.piece.plan.phrase.tempoBpm;
        for (const { due, stroke, verdict } of faulty.notes) {
          if (verdict === 'missed' || verdict === 'wrong voice') continue;
          const writtenAt = (due.timeUs % beatUs) / beatUs;
          const isOffbeat = Math.abs(writtenAt - written) < 0.001;
          const at = (stroke!.timeUs - (due.timeUs - writtenAt * beatUs)) / beatUs;
          expect(at).toBeCloseTo(isOffbeat ? share : Math.round(writtenAt), 4);
        }
      }
  });

  it('spread: twice as wide in the end as in the beginning', () => {
    for (const { piece, bars, bend } of ofFault('spread')) {
      const takes = Array.from({ length: 8 }, (_, seed) =>
        judgementOf(piece, bars, strokesOf(piece, bars, bend, { noise: 'white', sdMs: 8 }, seed)),
      );
      const tenth = (from: number) =>
        sampleStandardDeviation(
          takes.flatMap(({ notes }) =>
            notes
              .slice(from * notes.length, (from + 0.1) * notes.length)
              .flatMap(({ offsetUs, verdict }) =>
                offsetUs === undefined || verdict === 'wrong voice' ? [] : [offsetUs / 1000],
              ),
          ),
        );
      expect(tenth(0)).toBeCloseTo(8 * 1.05, -0.3);
      expect(tenth(0.9)).toBeCloseTo(8 * 1.95, -0.3);
    }
  });
});

describe('the faults of voices, levels and strokes', () => {
  it.each([
    ['ghosts', 'too loud', 0.9],
    ['accents', 'too soft', 0.99],
  ] as const)('%s: nearly all of them are %s, nothing else is', (name, verdict, least) => {
    for (const variant of ofFault(name)) {
      const { faulty } = without(variant);
      const touched = faulty.notes.filter(({ due }) => variant.notes.has(due));
      const rest = faulty.notes.filter(({ due }) => !variant.notes.has(due));
      const off = touched.filter(({ levelVerdict }) => levelVerdict === verdict).length;
      expect(off / touched.length).toBeGreaterThan(least - 0.05);
      expect(
        rest.filter(
          ({ levelVerdict, verdict: answer }) =>
            answer === 'in time' && levelVerdict !== 'as written',
        ).length,
      ).toBeLessThanOrEqual(2);
    }
  });

  it('ghosts are 8 dB louder and accents 8 dB softer than those of a clean player', () => {
    for (const [name, db] of [
      ['ghosts', 8],
      ['accents', -8],
    ] as const)
      for (const variant of ofFault(name)) {
        const { faulty, even } = without(variant);
        const velocity = (one: typeof even) =>
          mean(
            one.notes
              .filter(({ due, verdict }) => variant.notes.has(due) && verdict === 'in time')
              .map(({ stroke }) => stroke!.velocity),
          );
        expect(40 * Math.log10(velocity(faulty) / velocity(even))).toBeCloseTo(db, 0);
      }
  });

  it('contrast: 12.8 dB with every stroke inside its zone', () => {
    for (const variant of ofFault('contrast')) {
      const notes = without(variant).faulty.notes.filter(({ verdict }) => verdict === 'in time');
      expect(notes.filter(({ levelVerdict }) => levelVerdict !== 'as written')).toEqual([]);
      const velocity = (level: string) =>
        mean(
          notes.filter(({ due }) => due.note.level === level).map(({ stroke }) => stroke!.velocity),
        );
      const db = 40 * Math.log10(velocity('accent') / velocity('ghost'));
      expect(db).toBeGreaterThan(12.5);
      expect(db).toBeLessThan(13.1);
    }
  });

  it.each([
    ['wrong voice', 'wrong voice'],
    ['one position missed', 'missed'],
  ] as const)('%s: in six of ten of its notes', (name, verdict) => {
    let times = 0;
    let all = 0;
    for (const variant of ofFault(name)) {
      const { faulty, even } = without(variant);
      const isOff = ({ verdict: got }: { verdict: string }) => got === verdict;
      all += faulty.notes.filter(({ due }) => variant.notes.has(due)).length;
      times += faulty.notes.filter((one) => variant.notes.has(one.due) && isOff(one)).length;
      const beside = (one: typeof even) =>
        one.notes.filter((note) => !variant.notes.has(note.due) && isOff(note)).length;
      expect(Math.abs(beside(faulty) - beside(even))).toBeLessThanOrEqual(3);
    }
    expect(times / all).toBeGreaterThan(0.5);
    expect(times / all).toBeLessThan(0.7);
  });

  it('own notes: three of four are not as written, at least three of them', () => {
    for (const variant of ofFault('own notes')) {
      const own = without(variant).faulty.notes.filter(({ due }) =>
        due.note.layers.includes(variant.piece.layer),
      );
      const wrong = own.filter(
        ({ verdict, levelVerdict }) => verdict !== 'in time' || levelVerdict !== 'as written',
      );
      expect(wrong.length).toBeGreaterThanOrEqual(3);
      expect(wrong.length / own.length).toBeGreaterThan(0.7);
      expect(wrong.length / own.length).toBeLessThan(0.9);
    }
  });

  it('bounces: an eighth of the strokes of the hands, softer, on the same pad 40 to 70 ms later', () => {
    for (const variant of ofFault('bounces')) {
      const { faulty, even } = without(variant);
      const strokes = faulty.notes.flatMap(({ stroke }) => stroke ?? []);
      const added = faulty.extras.filter((extra) =>
        strokes.some(
          ({ pad, velocity, timeUs }) =>
            pad === extra.pad &&
            velocity > extra.velocity &&
            extra.timeUs - timeUs >= 40_000 &&
            extra.timeUs - timeUs <= 70_000,
        ),
      );
      expect(faulty.extras.length - added.length).toBeLessThanOrEqual(even.extras.length + 3);
      const hands = faulty.notes.filter(({ due }) => variant.notes.has(due)).length;
      expect(added.length / hands).toBeGreaterThan(0.07);
      expect(added.length / hands).toBeLessThan(0.18);
    }
  });
});
