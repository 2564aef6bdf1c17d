import fc from 'fast-check';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { readMidiFile } from '../../src/take/read-midi-file';
import type { RawMessage } from '../../src/kit/raw-message';
import { takeOfMidiFile, type MidiTakeOptions } from '../../src/take/take-of-midi-file';
import { writeMidiFile, type MidiFileContent } from '../../src/take/write-midi-file';
import { beats } from '../../src/time/beats';
import { parseMeter } from '../../src/time/meter';
import { tempoMap } from '../../src/time/tempo';
import { runCount } from '../run-count';

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

  it('says who played', () => {
    const texts = (content: MidiFileContent) =>
      parseMidi(writeMidiFile(content))
        .tracks.flat()
        .flatMap((event) => (event.type === 'text' ? [event.text] : []));
    expect(texts({ ...simple, player: 'simulated player' })).toEqual([
      'Played by: simulated player',
    ]);
    expect(texts(simple)).toEqual([]);
  });

  it('has tick 0 at the first beat of the count-in', () => {
    const { file, take } = readBack(simple);
    expect(file.messages[0]!.timeUs).toBe(2_000_000);
    expect(take.messages).toEqual(simple.messages);
    expect(file.names).toEqual(['Lantern']);
  });

  it('takes 960 ticks a quarter where that is exact, else 5040', () => {
    expect(readBack(simple).file.division).toEqual({ kind: 'musical', ticksPerQuarter: 960 });
    // a septuplet sixteenth at 120: 71428.571 us, whole in 5040 only
    const odd = readBack({ ...simple, messages: [stroke(71_429)] });
    expect(odd.file.division).toEqual({ kind: 'musical', ticksPerQuarter: 5040 });
    expect(odd.take.messages[0]!.timeUs).toBe(71_429);
  });

  it.each(['4/4', '3/4', '7/8', '6/8', '12/8', '5/16'])(
    'writes %s as another reader sees it',
    (text) => {
      const bytes = writeMidiFile({ ...simple, meter: meter(text) });
      const events = parseMidi(bytes).tracks[0]!;
      const found = events.find((event) => event.type === 'timeSignature');
      const clocks = { '4/4': 24, '3/4': 24, '7/8': 12, '6/8': 36, '12/8': 36, '5/16': 6 };
      expect(found).toMatchObject({
        numerator: meter(text).count,
        denominator: meter(text).unit,
        metronome: clocks[text as keyof typeof clocks],
        thirtyseconds: 8,
      });
      expect(events.at(-1)!.type).toBe('endOfTrack');
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

  it('comes back within half a tick, and the tempo within half a microsecond a quarter', () => {
    const contents = fc.record({
      messages: fc
        .array(fc.integer({ min: 0, max: 60e6 }), { maxLength: 40 })
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
    });
    fc.assert(
      fc.property(contents, (content) => {
        const { take, file } = readBack(content);
        const slowest = Math.max(...file.tempos.map(({ usPerQuarter }) => usPerQuarter));
        const ticks = file.division.kind === 'musical' ? file.division.ticksPerQuarter : 0;
        take.messages.forEach(({ timeUs }, i) => {
          // half a tick, and half a microsecond for each of the two roundings
          const off = Math.abs(timeUs - content.messages[i]!.timeUs);
          expect(off).toBeLessThanOrEqual(slowest / ticks / 2 + 1);
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
