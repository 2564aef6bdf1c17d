import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMidiFile } from '../../src/take/read-midi-file';
import type { RawMessage } from '../../src/kit/raw-message';
import { takeOfMidiFile, type MidiTakeOptions } from '../../src/take/take-of-midi-file';
import { writeMidiFile, type MidiFileContent } from '../../src/take/write-midi-file';
import { beats } from '../../src/time/beats';
import { parseMeter } from '../../src/time/meter';
import { tempoMap } from '../../src/time/tempo';
import { runCount } from '../run-count';
import { byMidiFile, OTHER_READERS } from './other-readers';

const meter = (text: string) => parseMeter(text)!;
const readBack = (content: MidiFileContent, options: Partial<MidiTakeOptions> = {}) => {
  const file = readMidiFile(writeMidiFile(content));
  if (!file.ok) throw new Error(file.errors[0]!.message);
  const { meter: metre, countInBars } = content;
  const take = takeOfMidiFile(file.value, { meter: metre, countInBars, ...options });
  if (!take.ok) throw new Error(take.errors[0]!.message);
  return { file: file.value, take: take.value };
};
const stroke = (timeUs: number, data1 = 38, data2 = 64): RawMessage => ({
  timeUs,
  status: 0x99,
  data1,
  data2,
});

describe('writeMidiFile', () => {
  const simple: MidiFileContent = {
    messages: [stroke(0), stroke(250_000), stroke(333_333)],
    tempos: [{ fromBeat: beats(0), bpm: 120 }],
    meter: meter('4/4'),
    countInBars: 1,
    title: 'Lantern',
  };

  const wordsIn = (content: MidiFileContent) =>
    byMidiFile(writeMidiFile(content))
      .tracks.flat()
      .map(({ words }) => words);

  it('says who played', () => {
    const texts = (content: MidiFileContent) =>
      wordsIn(content).filter((words) => words.startsWith('text'));
    expect(texts({ ...simple, player: 'simulated player' })).toEqual([
      'text Played by: simulated player',
    ]);
    expect(texts(simple)).toEqual([]);
  });

  it('has tick 0 at the first beat of the count-in, which a marker names', () => {
    const { file, take } = readBack(simple);
    expect(file.messages[0]!.timeUs).toBe(2_000_000);
    expect(take.messages).toEqual(simple.messages);
    expect(file.names).toEqual(['Lantern']);
    expect(file.texts).toEqual([{ tick: 0, kind: 'marker', text: 'Count-in' }]);
    expect(readBack({ ...simple, countInBars: 0 }).file.texts).toEqual([]);
  });

  it('takes 30240 ticks a quarter: tuplets up to 10 are whole, strokes told to 17 µs at 60', () => {
    // a septuplet sixteenth at 120: 71428.571 us
    const odd = readBack({ ...simple, messages: [stroke(71_429)] });
    expect(odd.file.division).toEqual({ kind: 'musical', ticksPerQuarter: 30_240 });
    expect(odd.file.messages[0]!.tick).toBe(4 * 30_240 + 30_240 / 7);
    expect(odd.take.messages[0]!.timeUs).toBe(71_429);
  });

  it.each([
    ['4/4', 24],
    ['3/4', 24],
    ['7/8', 12],
    ['6/8', 36],
    ['12/8', 36],
    ['5/16', 6],
  ] as const)('writes %s as other readers see it, a click every %i clocks', (text, clocks) => {
    const words = wordsIn({ ...simple, meter: meter(text) });
    expect(words).toContain(`meter ${text} ${clocks} 8`);
    expect(words.at(-1)).toBe('end');
  });

  it.each(OTHER_READERS)('keeps titles beyond Latin-1, as %s sees it', (_, read) => {
    const title = '“5–4” Säge 日本 🥁';
    const bytes = writeMidiFile({ ...simple, title });
    expect(read(bytes).tracks[0]![0]).toEqual({ tick: 0, words: `name ${title}` });
    expect(readBack({ ...simple, title }).file.names).toEqual([title]);
  });

  it.each(OTHER_READERS)(
    'plays on beats whatever the tempo rounds to, as %s sees it',
    (_, read) => {
      // 90 quarters a minute are 666,666.67 us each, which the file calls 666,667
      const onBeats = Array.from({ length: 900 }, (_, i) => stroke(Math.round((i * 60e6) / 90)));
      const [events] = read(
        writeMidiFile({ ...simple, tempos: [{ fromBeat: beats(0), bpm: 90 }], messages: onBeats }),
      ).tracks;
      const ons = events!.filter(({ words }) => words.startsWith('on'));
      expect(ons.map(({ tick }) => tick)).toEqual(onBeats.map((_, i) => (4 + i) * 30_240));
    },
  );

  it('keeps every kind of channel message', () => {
    const messages = [0x89, 0x99, 0xa9, 0xb9, 0xc9, 0xd9, 0xe9].map((status, i) => ({
      timeUs: i * 250_000,
      status,
      data1: 100 - i,
      data2: status === 0xc9 || status === 0xd9 ? 0 : 5 * i,
    }));
    expect(readBack({ ...simple, messages }).take.messages).toEqual(messages);
  });

  it('leaves out what lies before the count-in', () => {
    const { take } = readBack({ ...simple, messages: [stroke(-2_000_001), stroke(-2_000_000)] });
    expect(take.messages.map(({ timeUs }) => timeUs)).toEqual([-2_000_000]);
  });

  it('keeps every stroke to half a tick and 2 µs from every beat, and the tempo to half a µs a quarter', () => {
    const contents = fc.record({
      messages: fc
        .array(fc.integer({ min: 0, max: 600e6 }), { minLength: 1, maxLength: 40 })
        .map((times) => times.sort((a, b) => a - b).map((timeUs) => stroke(timeUs))),
      tempos: fc
        .tuple(
          fc.integer({ min: 30, max: 300 }),
          fc.integer({ min: 30, max: 300 }),
          fc.integer({ min: 1, max: 64 }),
        )
        .map(([first, second, at]) => [
          { fromBeat: beats(0), bpm: first },
          { fromBeat: beats(at), bpm: second },
        ]),
      meter: fc.constantFrom('4/4', '3/4', '7/8', '6/8', '9/8', '5/16').map(meter),
      countInBars: fc.integer({ min: 0, max: 2 }),
      beat: fc.nat(400),
    });
    fc.assert(
      fc.property(contents, ({ beat, ...content }) => {
        const { take, file } = readBack(content);
        const slowest = Math.max(...file.tempos.map(({ usPerQuarter }) => usPerQuarter));
        const dueUs = tempoMap(content.tempos).usAt(beats(beat));
        const dueInFileUs = tempoMap(take.tempos).usAt(beats(beat));
        take.messages.forEach(({ timeUs }, i) => {
          const offsetUs = content.messages[i]!.timeUs - dueUs;
          // A file's clock is off by half a us a quarter at most, which in a reach of half a second is nothing.
          if (Math.abs(offsetUs) > 500_000) return;
          const off = Math.abs(timeUs - dueInFileUs - offsetUs);
          expect(off).toBeLessThanOrEqual(slowest / 30_240 / 2 + 2);
        });
        expect(take.tempos.map(({ fromBeat }) => fromBeat.toFraction())).toEqual(
          content.tempos.map(({ fromBeat }) => fromBeat.toFraction()),
        );
        const quarters = content.meter.quartersPerBeat.valueOf();
        take.tempos.forEach(({ bpm }, i) => {
          const usOff = Math.abs(60e6 / bpm - 60e6 / content.tempos[i]!.bpm);
          expect(usOff).toBeLessThanOrEqual(0.5 * quarters + 1e-6);
        });
      }),
      { numRuns: runCount(150) },
    );
  });
});

describe('takeOfMidiFile', () => {
  it('counts dotted quarters in 6/8: 45 dotted quarters a minute are 67.5 quarters', () => {
    const { file, take } = readBack({
      messages: [stroke(0)],
      tempos: [{ fromBeat: beats(0), bpm: 45 }],
      meter: meter('6/8'),
      countInBars: 2,
    });
    expect(file.tempos[0]!.usPerQuarter).toBe(888_889);
    expect(take.tempos[0]!.bpm).toBeCloseTo(45, 3);
    expect(take.messages[0]!.timeUs).toBe(0);
  });

  it('places a tempo change in beats, and times agree with the tempo map of the engine', () => {
    const tempos = [
      { fromBeat: beats(0), bpm: 60 },
      { fromBeat: beats(4), bpm: 120 },
    ];
    const due = tempoMap(tempos);
    const places = [beats(0), beats(7, 2), beats(9, 2), beats(8)];
    const { take } = readBack({
      messages: places.map((place) => stroke(due.usAt(place))),
      tempos,
      meter: meter('4/4'),
      countInBars: 1,
    });
    expect(take.messages.map(({ timeUs }) => timeUs)).toEqual([0, 3_500_000, 4_250_000, 6_000_000]);
    expect(take.tempos.map(({ fromBeat }) => fromBeat.valueOf())).toEqual([0, 4]);
  });

  it('uses another tempo in place of that of the file', () => {
    const content = {
      messages: [stroke(0)],
      tempos: [{ fromBeat: beats(0), bpm: 120 }],
      meter: meter('4/4'),
      countInBars: 1,
    };
    const { take } = readBack(content, { tempoBpm: 60 });
    expect(take.messages[0]!.timeUs).toBe(2_000_000 - 4_000_000);
    expect(take.tempos).toEqual([{ fromBeat: beats(0), bpm: 60 }]);
  });

  const inFrames = {
    division: { kind: 'frames', framesPerSecond: 25, ticksPerFrame: 40 } as const,
    tempos: [],
    meters: [],
    messages: [{ tick: 5, timeUs: 5000, status: 0x99, data1: 38, data2: 1 }],
    texts: [],
    endTick: 5,
    names: [],
  };

  it('asks for a tempo when the file counts in frames and tells none', () => {
    const options = { meter: meter('4/4'), countInBars: 0 };
    const refused = takeOfMidiFile(inFrames, options);
    expect(!refused.ok && refused.errors[0]!.code).toBe('TEMPO_MISSING');
    const take = takeOfMidiFile(inFrames, { ...options, tempoBpm: 100 });
    expect(take.ok && take.value.messages[0]!.timeUs).toBe(5000);
  });

  it('takes the tempo that a file in frames tells, its changes in real time', () => {
    const tempos = [
      { tick: 0, usPerQuarter: 600_000 },
      { tick: 4800, usPerQuarter: 500_000 },
    ];
    const take = takeOfMidiFile({ ...inFrames, tempos }, { meter: meter('4/4'), countInBars: 1 });
    if (!take.ok) throw new Error(take.errors[0]!.message);
    // A bar of 600 ms quarters is 2.4 s; the change comes after two such bars.
    expect(take.value.messages[0]!.timeUs).toBe(5000 - 2_400_000);
    expect(take.value.tempos.map(({ fromBeat, bpm }) => [fromBeat.toFraction(), bpm])).toEqual([
      ['0', 100],
      ['4', 120],
    ]);
  });
});
