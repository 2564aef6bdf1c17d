import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { finalStats, liveStats } from '../../src/live/live-stats';
import { LiveTake } from '../../src/live/live-take';
import { LiveTimeline } from '../../src/live/live-timeline';
import { openTake } from '../../src/live/open-take';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import { finishedTake } from '../../src/practice/takes/finished-take';
import { simulate } from '../../src/take/simulate';
import { beats } from '../../src/time/beats';
import { layeredPhrase, phraseOf } from '../phrase/phrase-of';
import { runCount } from '../run-count';

const begin = (phrase: Phrase, passages = [{ fromBar: 1, layer: 1 }]) => {
  const timeline = new LiveTimeline({
    phrase,
    passages,
    tempos: [{ fromBeat: beats(0), bpm: 120 }],
    windows: {},
    countInBars: 1,
  });
  timeline.extendTo(20_000_000);
  const take = new LiveTake(timeline, GENERAL_MIDI);
  take.sync();
  return take;
};

/** Plays notes `from` up to `to` on time, those of which `how` says "-" not at all, "x" on a crash, the rest rightly. */
function play(take: LiveTake, to: number, how: (i: number) => string = () => 'o', from = 0): void {
  const decoder = new KitDecoder(GENERAL_MIDI);
  for (let i = from; i < to; i++) {
    const { timeUs, note } = take.timeline.notes[i]!;
    if (how(i) === '-') continue;
    const pad = how(i) === 'x' ? 49 : note.voice === 'bass drum' ? 36 : 38;
    take.receive(timeUs, decoder.read(timeUs, 0x99, pad, 70 + (i % 2)));
  }
  take.advance(take.timeline.notes[to]!.timeUs);
}

/** As it is when it was stopped, kept and opened again. */
const reopened = (take: LiveTake, phrase: Phrase) =>
  openTake(
    finishedTake(
      take,
      { phraseText: writePhrase(phrase), startedAt: '2026-05-04T18:00:00.000Z' },
      0,
    ),
  )!.lane;

/** Three partials in a bar of four: at 120 a cycle lasts 0.75 s and has three notes. */
const SHORT = phraseOf({ title: 'Bollard', meter: '2/4', subdivision: 2, grouping: 'R L K' });

const lastOf = (stats: ReturnType<typeof finalStats>) => {
  if (!stats?.lastCycles) return '-';
  const { fromCycle, toCycle, figures } = stats.lastCycles;
  const right = Math.round(figures.asWritten! * figures.count);
  return `${fromCycle} to ${toCycle}: ${right} of ${figures.count}`;
};

describe('the big figures', () => {
  it('gather short cycles, and stay until the next ones are whole', () => {
    const take = begin(SHORT);
    // The fifth cycle goes wrong twice, the eighth once.
    play(take, 30, (i) => ('--o' + 'ooo'.repeat(2) + 'oo-')[i - 12] ?? 'o');
    expect(Array.from({ length: 10 }, (_, at) => lastOf(liveStats(take, at)))).toEqual([
      '-',
      '-',
      '-',
      '1 to 4: 12 of 12',
      '1 to 4: 12 of 12',
      '1 to 4: 12 of 12',
      '1 to 4: 12 of 12',
      '5 to 8: 9 of 12',
      '5 to 8: 9 of 12',
      '5 to 8: 9 of 12',
    ]);
  });

  it.each([
    ['a bar of twelve notes is told by itself', 'R L R L R L R L R L K R - - - -', '1 to 1'],
    ['a bar of eleven is not', 'R L R L R L R L R L K - - - - -', '1 to 2'],
    ['nor are 12 notes that are less than a bar', 'R L R L R L R L R L R K', '1 to 2'],
    ['16 partials of 16 are a bar', 'R L R L R L R L R L R L R L R K', '1 to 1'],
    ['15 of 16 are none', 'R L R L R L R L R L R L R L K', '1 to 2'],
    ['a long cycle is never gathered', 'R L R L R L R L R L R L R L R L R L R K', '1 to 1'],
  ])('%s', (_, grouping, cycles) => {
    const take = begin(phraseOf({ grouping }));
    const told = [0, 1].map((at) => lastOf(liveStats(take, at)));
    expect(told.find((one) => one !== '-')).toContain(cycles);
  });

  it('leave the gate to look after every cycle', () => {
    const take = begin(SHORT);
    play(take, 18);
    expect([0, 1, 2, 3, 4, 5].map((at) => liveStats(take, at).gate.cycles)).toEqual([
      1, 2, 3, 4, 5, 6,
    ]);
  });

  it('stay those of the last whole cycles when a take is stopped in the middle of one', () => {
    const phrase = phraseOf({ grouping: 'R L R L R L R L R L R L R L R L R L R K' });
    const take = begin(phrase);
    play(take, 42, (i) => (i === 21 ? '-' : 'o'));
    expect(lastOf(finalStats(reopened(take, phrase)))).toBe('2 to 2: 19 of 20');
  });

  it('are those of a cycle that was whole but for its last note told before', () => {
    const phrase = phraseOf({ grouping: 'R L R L R L R L R L R L R L R L R L R K' });
    const stoppedAfter = (notes: number) => {
      const take = begin(phrase);
      play(take, notes);
      return lastOf(finalStats(reopened(take, phrase)));
    };
    expect(stoppedAfter(39)).toBe('1 to 1: 20 of 20');
    expect(stoppedAfter(40)).toBe('2 to 2: 20 of 20');
    expect(stoppedAfter(19)).toBe('-');
  });

  it('are of what there is when too few short cycles were played', () => {
    const take = begin(SHORT);
    play(take, 7, (i) => (i === 1 ? '-' : 'o'));
    expect(lastOf(finalStats(reopened(take, SHORT)))).toBe('1 to 2: 5 of 6');
  });

  it('are still those of the layer before until the new one has whole cycles', () => {
    const phrase = layeredPhrase({ meter: '2/4', subdivision: 2, grouping: 'R L K' }, [
      { where: { limb: 'L' }, set: { level: 'accent' } },
    ]);
    // Layer 2 from bar 4, after four cycles.
    const take = begin(phrase, [
      { fromBar: 1, layer: 1 },
      { fromBar: 4, layer: 2 },
    ]);
    play(take, 27);
    const [stats, later] = [liveStats(take, 4), liveStats(take, 7)];
    expect([stats.layer, lastOf(stats)]).toEqual([2, '1 to 4: 12 of 12']);
    expect(stats.layers.map(({ figures }) => figures)).toEqual([undefined, undefined]);
    expect([stats.bars, stats.overall.count, stats.gate.notes]).toEqual([undefined, 0, 3]);
    // The accents of the left hand are played as taps: one of three.
    expect(lastOf(later)).toBe('1 to 4: 8 of 12');
    expect(later.layers.map(({ figures }) => [figures!.count, figures!.asWritten])).toEqual([
      [12, 8 / 12],
      [4, 0],
    ]);
    expect(later.bars).toEqual({ from: 4, to: 6 });
  });

  it('lawStopKeepsFigures: are after the stop what was told last before it', () => {
    const any = fc.record({
      phrase: fc.constantFrom(
        SHORT,
        phraseOf({ grouping: 'R L L R K', cycle: 20 }),
        phraseOf({ grouping: 'R - L R -' }),
        phraseOf({ grouping: 'llR L R L' }),
      ),
      notes: fc.integer({ min: 1, max: 90 }),
      seed: fc.nat(),
    });
    fc.assert(
      fc.property(any, ({ phrase, notes, seed }) => {
        const take = begin(phrase);
        const decoder = new KitDecoder(GENERAL_MIDI);
        const faults = { spreadMs: 15, missed: 0.1, wrongVoices: 0.1 };
        const played = simulate(take.timeline.notes.slice(0, notes), faults, seed).messages;
        for (const { timeUs, status, data1, data2 } of played)
          take.receive(timeUs, decoder.read(timeUs, status, data1, data2));
        take.advance(30_000_000);
        const opened = reopened(take, phrase);
        const { cycles } = take.timeline;
        const whole = cycles.slice(1).findLastIndex((next) => next.firstNote <= opened.noteCount);
        const told = whole < 0 ? '-' : lastOf(liveStats(take, whole));
        fc.pre(told !== '-');
        expect(lastOf(finalStats(opened))).toBe(told);
      }),
      { numRuns: runCount(40, 13) },
    );
  });
});

describe('the row of a layer', () => {
  /** How the one row and the gate count. */
  const counts = ({ layers, gate }: ReturnType<typeof liveStats>) => {
    const { count, asWritten } = layers[0]!.figures!;
    return {
      row: `${Math.round(asWritten! * count)} of ${count}`,
      gate: `${gate.right} of ${gate.notes}`,
    };
  };
  const LONG = phraseOf({ grouping: 'R L R L R L R L R L R L R L R L R L R K' });

  it('counts the whole trial that goes on, however long, as the gate does', () => {
    const take = begin(SHORT);
    take.timeline.extendTo(250_000_000);
    take.sync();
    play(take, 900, (i) => (i === 0 ? 'x' : 'o'));
    const stats = liveStats(take, 299);
    expect(counts(stats)).toEqual({ row: '899 of 900', gate: '899 of 900' });
    expect(stats.bars).toEqual({ from: 1, to: 225 });
  });

  it('waits for whole cycles with the gate that is told beside it, but not with a pass', () => {
    const take = begin(SHORT);
    take.timeline.extendTo(30_000_000);
    take.sync();
    play(take, 100, (i) => (i === 13 ? '-' : 'o'));
    const cycles = Array.from({ length: 30 }, (_, at) => liveStats(take, at));
    const told = ({ gateOfRows }: (typeof cycles)[number]) =>
      `${gateOfRows.right} of ${gateOfRows.notes}`;
    // The gate by itself in the first four, then with the row.
    const first = ['3 of 3', '6 of 6', '9 of 9', '12 of 12'];
    const before = [...first, '12 of 12', '12 of 12', '12 of 12', '23 of 24', '23 of 24'];
    expect(cycles.slice(0, 9).map(told)).toEqual(before);
    for (const stats of cycles.slice(3).filter(({ gate }) => !gate.passed))
      expect(counts(stats).row).toBe(told(stats));
    const passed = cycles.findIndex(({ gate }) => gate.passed);
    expect((passed + 1) % 4).not.toBe(0);
    expect(cycles.findIndex(({ gateOfRows }) => gateOfRows.passed)).toBe(passed);
    expect(counts(cycles.at(-3)!).row).toBe(told(cycles.at(-3)!));
  });

  it('counts from where it was asked to', () => {
    const take = begin(LONG);
    play(take, 60, (i) => (i < 5 ? '-' : 'o'));
    expect(counts(liveStats(take, 1))).toEqual({ row: '35 of 40', gate: '35 of 40' });
    const requestsUs = [take.timeline.cycles[1]!.startUs];
    const stats = liveStats(take, 1, { requestsUs });
    expect(counts(stats)).toEqual({ row: '20 of 20', gate: '20 of 20' });
    // The second cycle of 20 sixteenths begins in bar 2 and ends in bar 3.
    expect(stats.bars).toEqual({ from: 2, to: 3 });
  });

  it('leaves out the bars that the gate leaves out', () => {
    const take = begin(LONG);
    play(take, 60, (i) => (i < 5 ? '-' : 'o'));
    const stats = liveStats(take, 1, { leftOutBars: [1] });
    expect(counts(stats)).toEqual({ row: '24 of 24', gate: '24 of 24' });
    expect(stats.bars).toEqual({ from: 2, to: 3 });
  });

  it('counts the cut cycle too once the take is over, as the gate does', () => {
    const take = begin(LONG);
    play(take, 42, (i) => (i === 40 ? 'x' : 'o'));
    const stats = finalStats(reopened(take, LONG))!;
    expect(counts(stats)).toEqual({ row: '41 of 42', gate: '41 of 42' });
    expect(stats.bars).toEqual({ from: 1, to: 3 });
  });

  it('judges no level on a pad that sends one velocity, from the stroke on that shows it', () => {
    const phrase = layeredPhrase({ grouping: 'R L R L R L R L' }, [
      { where: { limb: 'L' }, set: { level: 'ghost' } },
    ]);
    const take = begin(phrase, [{ fromBar: 1, layer: 2 }]);
    const decoder = new KitDecoder(GENERAL_MIDI);
    const at = [0, 1].map((cycle) => {
      for (const { timeUs } of take.timeline.notes.slice(8 * cycle, 8 * cycle + 8))
        take.receive(timeUs, decoder.read(timeUs, 0x99, 38, 100));
      return liveStats(take, cycle);
    });
    // Four ghosts of eight notes are too loud at first; the twelfth stroke takes that back.
    expect(at.map(({ gate }) => [gate.right, gate.notes])).toEqual([
      [4, 8],
      [16, 16],
    ]);
    expect(at.map(({ padsWithoutLevels }) => padsWithoutLevels)).toEqual([
      [],
      [{ pad: 38, velocity: 100, notes: 16, still: true }],
    ]);
  });

  it('begins anew with another tempo', () => {
    const take = begin(LONG);
    const change = take.timeline.changeTempo(60, take.timeline.cycles[1]!.startUs);
    take.dropNotesFrom(change.firstNote);
    take.timeline.extendTo(20_000_000);
    take.sync();
    play(take, 60, (i) => (i < 5 ? '-' : 'o'));
    expect(counts(liveStats(take, 0))).toEqual({ row: '15 of 20', gate: '15 of 20' });
    expect(counts(liveStats(take, 1))).toEqual({ row: '20 of 20', gate: '20 of 20' });
  });

  it('tells the contrast of its ghosts against accents that another layer wrote, and says so', () => {
    const phrase = layeredPhrase(
      { grouping: 'R L R L R L R L R L R L R L R K' },
      [{ where: { positions: [1] }, set: { level: 'accent' } }],
      [{ where: { positions: [2] }, set: { level: 'ghost' } }],
    );
    const take = begin(phrase, [{ fromBar: 1, layer: 3 }]);
    const decoder = new KitDecoder(GENERAL_MIDI);
    for (const { timeUs, note } of take.timeline.notes.slice(0, 16)) {
      const velocity = { ghost: 40, tap: 70, accent: 120 }[note.level];
      take.receive(timeUs, decoder.read(timeUs, 0x99, note.limb === 'K' ? 36 : 38, velocity));
    }
    // 40 log10(120 / 40) dB, of which each layer has one side, and the first layer's notes both.
    const told = liveStats(take, 0).layers.map(({ contrastDb, against }) => [
      contrastDb!.toFixed(2),
      against,
    ]);
    expect(told).toEqual([
      ['19.08', undefined],
      ['19.08', 'ghosts'],
      ['19.08', 'accents'],
    ]);
  });
});

describe('figures of a player who has lost the place', () => {
  const phrase = phraseOf({ grouping: 'R L L R K', cycle: 20 });
  /** Eight cycles at 120, sixteenths of 125 ms, the last four of them one partial late. */
  const slipped = () => {
    const take = begin(phrase);
    const lost = { afterCycles: 4, slipMs: 125 };
    const faults = { spreadMs: 8, velocitySpread: 5, lostPlace: lost };
    const decoder = new KitDecoder(GENERAL_MIDI);
    for (const { timeUs, status, data1, data2 } of simulate(
      take.timeline.notes.slice(0, 160),
      faults,
      1,
    ).messages)
      take.receive(timeUs, decoder.read(timeUs, status, data1, data2));
    take.advance(take.timeline.cycles[7]!.endUs + 300_000);
    return take;
  };

  it('do not call wrong voices what the slip explains', () => {
    const stats = liveStats(slipped(), 7);
    expect(stats.code).toBe('lost place');
    expect(stats.wrongVoices).toEqual([]);
  });
});
