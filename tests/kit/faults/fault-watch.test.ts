import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { createFaultWatch, type FaultWatch } from '../../../src/kit/faults/fault-watch';
import { FLOOD_FROM } from '../../../src/kit/faults/flood';
import { createSetAsideCounts } from '../../../src/kit/faults/set-aside-counts';
import { createWireless } from '../../../src/kit/faults/wireless';
import type { Kit } from '../../../src/kit/kit';
import { KitDecoder } from '../../../src/kit/kit-decoder';
import { setAside } from '../../../src/kit/set-aside';
import { chance } from '../../../src/time/chance';

const SEED = 9090;
const NOTE_ON = 0x99;
const following: Kit = {
  ...EDGE_AND_RIM,
  pads: EDGE_AND_RIM.pads.map((pad) => (pad.note === 42 ? { ...pad, followsOpening: true } : pad)),
};

/** A watch over what a kit sends, decoded as the inputs decode it. */
function watchOver(kit: Kit) {
  const { receive, report } = createFaultWatch(kit);
  const decoder = new KitDecoder(kit);
  const send = (timeUs: number, status: number, data1: number, data2: number) =>
    receive(decoder.read(timeUs, status, data1, data2));
  return { report, send };
}
type Watched = ReturnType<typeof watchOver>;

const strike = (watch: Watched, ms: number, note: number, velocity: number) =>
  watch.send(Math.round(ms * 1000), NOTE_ON, note, velocity);
const control = (watch: Watched, ms: number, value: number) =>
  watch.send(Math.round(ms * 1000), 0xb9, 4, value);
const faultsOf = (watch: Watched) =>
  watch.report().map(({ fault, pad, count }) => [fault, pad, count]);

/** Ten minutes of sound playing: sixteenths on the hi-hat, ghosts and accents, pedal moving. */
function soundPlaying(watch: Watched, seed: number): void {
  const { normal, next } = chance(seed);
  for (let i = 0; i < 4800; i++) {
    const ms = 1000 + i * 125 + 9 * normal();
    const loud = i % 4 === 0;
    strike(
      watch,
      ms,
      i % 8 === 4 ? 38 : 42,
      Math.min(126, Math.max(20, (loud ? 105 : 45) + 8 * normal())) | 0,
    );
    if (i % 8 === 0) strike(watch, ms + 3 * normal(), 36, 90 + (next() % 20));
    if (i % 16 === 8) {
      control(watch, ms - 60, 90 + (next() % 37));
      strike(watch, ms - 40, 44, 60 + (next() % 30));
      control(watch, ms - 20, next() % 10);
    }
  }
}

describe('a watch over sound playing', () => {
  it(`finds nothing in ten minutes, seed ${SEED}`, () => {
    for (const kit of [EDGE_AND_RIM, following]) {
      const watch = watchOver(kit);
      soundPlaying(watch, SEED);
      expect(watch.report()).toEqual([]);
    }
  });

  it('allocates nothing message by message', () => {
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    const watch = watchOver(following);
    soundPlaying(watch, SEED);
    const send = (count: number) => {
      for (let i = 0; i < count; i++) {
        const timeUs = 700_000_000 + i * 40_000;
        watch.send(timeUs, NOTE_ON, i % 3 === 0 ? 38 : 42, 1 + (i % 126));
        watch.send(timeUs + 1000, 0xb9, 4, i % 128);
        watch.send(timeUs + 2000, NOTE_ON, 38, 20);
      }
    };
    send(100_000);
    // Until the compiler is done with it, code allocates for itself: one round that does not is enough.
    let least = Infinity;
    for (let round = 0; round < 40 && least >= 100_000; round++) {
      collect();
      const before = process.memoryUsage().heapUsed;
      send(20_000);
      least = Math.min(least, process.memoryUsage().heapUsed - before);
    }
    // One number kept for each of 60,000 messages would be near a megabyte.
    expect(least).toBeLessThan(100_000);
  });
});

describe('a watch that begins in the middle of the playing', () => {
  it('counts nothing against strokes from before it began', () => {
    const decoder = new KitDecoder(EDGE_AND_RIM);
    const send = (watch: Pick<FaultWatch, 'receive'>, i: number) => {
      // The stroke before turns out to be crosstalk of this one, when this one comes.
      watch.receive(decoder.read(i * 500_000 - 2000, NOTE_ON, 48, 9));
      return () => watch.receive(decoder.read(i * 500_000, NOTE_ON, 38, 110));
    };
    const before = createFaultWatch(EDGE_AND_RIM);
    const after = createFaultWatch(EDGE_AND_RIM);
    for (let i = 0; i < 5; i++) send(before, i)();
    send(before, 5);
    after.receive(decoder.read(5 * 500_000, NOTE_ON, 38, 110));
    for (let i = 6; i < 10; i++) send(after, i)();
    expect(after.report().map(({ pad, count }) => [pad, count])).toEqual([[48, 4]]);
  });
});

describe('a watch over a faulty kit', () => {
  it('counts double triggers per pad and tells the mask time that would do', () => {
    const watch = watchOver(EDGE_AND_RIM);
    for (let i = 0; i < 40; i++) {
      strike(watch, i * 500, 38, 100);
      if (i % 4 === 0) strike(watch, i * 500 + 8 + (i % 3) * 4, 38, 35);
    }
    expect(faultsOf(watch)).toEqual([['double triggers', 38, 10]]);
    const { sentence, advice } = watch.report()[0]!;
    expect(sentence).toBe(
      '“snare head” sent 10 double triggers in 50 strokes, up to 16 ms after the stroke itself.',
    );
    expect(advice).toContain('to about 20 ms');
  });

  it('counts crosstalk on the pad that answers, also when the answer comes first', () => {
    const watch = watchOver(EDGE_AND_RIM);
    for (let i = 0; i < 20; i++) {
      if (i % 2 === 0) strike(watch, i * 500 - 2, 48, 9);
      strike(watch, i * 500, 38, 110 + (i % 2));
    }
    expect(faultsOf(watch)).toEqual([['crosstalk', 48, 10]]);
  });

  it(`counts what setAside sets aside, seed ${SEED + 1}`, () => {
    const { next } = chance(SEED + 1);
    const counts = createSetAsideCounts(EDGE_AND_RIM);
    const strokes = Array.from({ length: 3000 }, (_, i) => ({
      timeUs: i * 4000 + (next() % 8000),
      pad: [38, 40, 48, 36][next() % 4]!,
      velocity: 1 + (next() % 127),
    }));
    const decoder = new KitDecoder(EDGE_AND_RIM);
    for (const { timeUs, pad, velocity } of strokes)
      counts.add(decoder.read(timeUs, NOTE_ON, pad, velocity));
    const why = setAside(strokes, EDGE_AND_RIM);
    const sum = (column: Uint32Array) => column.reduce((all, one) => all + one, 0);
    expect(sum(counts.doubleTriggers)).toBe(why.filter((one) => one === 1).length);
    expect(sum(counts.crosstalk)).toBe(why.filter((one) => one === 2).length);
    expect(sum(counts.crosstalk)).toBeGreaterThan(20);
  });

  it(`tells a spike at 127 from loud playing, seed ${SEED + 2}`, () => {
    const { normal } = chance(SEED + 2);
    const spiked = watchOver(EDGE_AND_RIM);
    const loud = watchOver(EDGE_AND_RIM);
    for (let i = 0; i < 200; i++) {
      strike(spiked, i * 300 + 9 * normal(), 48, i % 5 === 0 ? 127 : Math.round(80 + 6 * normal()));
      strike(loud, i * 300 + 9 * normal(), 48, Math.min(127, Math.round(112 + 8 * normal())));
    }
    expect(faultsOf(spiked)).toEqual([['hot spot', 48, 40]]);
    expect(loud.report()).toEqual([]);
  });

  it(`tells chatter from ghost notes and from a soft even roll, seed ${SEED + 3}`, () => {
    const { share, normal } = chance(SEED + 3);
    const shaking = watchOver(EDGE_AND_RIM);
    const playing = watchOver(EDGE_AND_RIM);
    let ms = 0;
    for (let i = 0; i < 80; i++) {
      ms += -120 * Math.log(1 - share());
      strike(shaking, ms, 51, 3 + (i % 6));
      strike(playing, i * 110 + 8 * normal(), 38, 6 + (i % 4));
    }
    expect(faultsOf(shaking).filter(([fault]) => fault === 'chatter')).toEqual([
      ['chatter', 51, 80],
    ]);
    expect(playing.report().filter(({ fault }) => fault === 'chatter')).toEqual([]);
  });

  it('tells a controller that is stuck, one that is silent, and one that hardly moves', () => {
    const stuck = watchOver(following);
    control(stuck, 0, 90);
    for (let i = 0; i < 14; i++) strike(stuck, 500 * i + 7 * (i % 3), 44, 70);
    expect(stuck.report()[0]!.sentence).toContain('stepped on 14 times while controller 4 stayed');

    const silent = watchOver(following);
    for (let i = 0; i < 12; i++) strike(silent, 503 * i + 11 * (i % 5), 42, 70);
    expect(silent.report()[0]!.sentence).toContain('has not spoken in 12 hi-hat strokes');

    const narrow = watchOver(following);
    for (let i = 0; i < 10; i++) {
      control(narrow, 503 * i, 60 + (i % 2) * 20);
      strike(narrow, 503 * i + 100, 44, 70);
    }
    expect(narrow.report()[0]!.sentence).toContain('uses only 16 % of its range');
  });

  it('takes no shaken pedal for a step on it', () => {
    const shaken = watchOver(following);
    const stepped = watchOver(following);
    for (const watch of [shaken, stepped]) control(watch, 0, 90);
    for (let i = 0; i < 14; i++) {
      strike(shaken, 500 * i, 36, 110);
      strike(shaken, 500 * i + 2, 44, 9);
      strike(stepped, 500 * i, 36, 110);
      strike(stepped, 500 * i + 2, 44, 70);
    }
    const controllers = (watch: Watched) =>
      faultsOf(watch).filter(([fault]) => fault === 'hi-hat controller');
    expect(controllers(shaken)).toEqual([]);
    expect(controllers(stepped)).toEqual([['hi-hat controller', undefined, 14]]);
  });

  it('tells a flood, and of what', () => {
    const watch = watchOver(EDGE_AND_RIM);
    for (let i = 0; i < 900; i++) control(watch, i, i % 2);
    expect(faultsOf(watch)).toEqual([['flood', undefined, 1]]);
    expect(watch.report()[0]!.sentence).toMatch(/900 messages .* mostly controller messages/);
    const calm = watchOver(EDGE_AND_RIM);
    for (let i = 0; i < 4 * (FLOOD_FROM - 1); i++)
      control(calm, (i * 1000) / (FLOOD_FROM - 1), i % 2);
    expect(calm.report()).toEqual([]);
  });

  it.each([
    [FLOOD_FROM - 1, 0],
    [FLOOD_FROM, 1],
  ])('%i messages in one second are %i floods', (messages, floods) => {
    const watch = watchOver(EDGE_AND_RIM);
    for (let i = 0; i < messages; i++) control(watch, i, i % 2);
    expect(watch.report().filter(({ fault }) => fault === 'flood')).toHaveLength(floods);
  });

  it('counts notes without a pad, for mapping', () => {
    const watch = watchOver(EDGE_AND_RIM);
    for (let i = 0; i < 3; i++) strike(watch, i * 503, 99, 80);
    strike(watch, 5000, 3, 80);
    expect(faultsOf(watch)).toEqual([
      ['unmapped note', 99, 3],
      ['unmapped note', 3, 1],
    ]);
  });

  it('gives every fault a sentence and a setting to turn', () => {
    const watch = watchOver(following);
    for (let i = 0; i < 900; i++) control(watch, i, 5);
    for (let i = 0; i < 30; i++) {
      strike(watch, 2000 + i * 400, 38, 127);
      strike(watch, 2010 + i * 400, 38, 30);
      strike(watch, 2003 + i * 400, 48, 9);
      strike(watch, 2200 + i * 400, 44, 70);
      strike(watch, 2300 + i * 400, 99, 70);
    }
    const found = watch.report();
    expect(new Set(found.map(({ fault }) => fault)).size).toBeGreaterThanOrEqual(5);
    for (const { sentence, advice } of found) {
      expect(sentence).toMatch(/^[“A-Z0-9].*\.$/);
      expect(advice).toMatch(/^[A-Z].*\.$/);
    }
  });
});

describe('wireless time stamps', () => {
  const { normal, share } = chance(SEED + 4);
  /** A player of sixteenths whose stamps are passed through `stamp`. */
  const grid = (stamp: (ms: number) => number, strokes = 400) => {
    const wireless = createWireless();
    for (let i = 0; i < strokes; i++)
      wireless.add(Math.round(1000 * stamp(i * 137 + 12 * normal())));
    return wireless.grid?.ms;
  };
  const every = (stepMs: number, jitterMs: number) => (ms: number) =>
    Math.ceil(ms / stepMs) * stepMs + jitterMs * normal();

  // Connection intervals are multiples of 1.25 ms from 7.5 ms, at most 15 ms for BLE MIDI [F/M].
  it.each([7.5, 8.75, 10, 11.25, 12.5, 13.75, 15])(
    `are found on a grid of %f ms, seed ${SEED + 4}`,
    (ms) => {
      expect(grid(every(ms, 0.5))).toBe(ms);
    },
  );

  it('are not found by cable, by USB frames, nor on the coarse clock of a browser', () => {
    expect(grid((ms) => ms)).toBeUndefined();
    expect(grid(every(1, 0))).toBeUndefined();
    expect(grid(every(2, 0))).toBeUndefined();
    expect(grid(every(100, 0))).toBeUndefined();
    expect(grid(every(50 / 3, 0.3))).toBeUndefined();
  });

  it('are hardly ever found in a short stretch by chance', () => {
    let found = 0;
    for (let run = 0; run < 500; run++)
      if (grid((ms) => ms + 5 * share(), 45) !== undefined) found++;
    expect(found).toBeLessThan(5);
  });

  it('tell how well a stroke is known', () => {
    const watch = watchOver(EDGE_AND_RIM);
    for (let i = 0; i < 200; i++) strike(watch, every(15, 0.3)(i * 137 + 12 * normal()), 38, 80);
    expect(watch.report()[0]!.sentence).toContain('steps of 15 ms');
    expect(watch.report()[0]!.sentence).toContain('±7.5 ms');
  });
});
