import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { readMidiFile } from '../../src/take/read-midi-file';
import { writeMidiFile } from '../../src/take/write-midi-file';
import { beats } from '../../src/time/beats';
import { parseMeter } from '../../src/time/meter';
import { runCount } from '../run-count';

const FOLDER = new URL('../../shared/takes/', import.meta.url);
const TAKES = readdirSync(FOLDER).filter((name) => name.endsWith('.mid'));
const take = (name: string) => new Uint8Array(readFileSync(new URL(name, FOLDER)));

const HEADER = [0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 0, 96];
const track = (...events: number[]) => [
  0x4d,
  0x54,
  0x72,
  0x6b,
  0,
  0,
  events.length >> 8,
  events.length & 255,
  ...events,
];
const END = [0, 0xff, 0x2f, 0];
const readBytes = (...bytes: number[]) => readMidiFile(Uint8Array.from(bytes));
const withEvents = (...events: number[]) => readBytes(...HEADER, ...track(...events));
const header = (format: number, tracks: number, ...division: [number, number]) => [
  ...HEADER.slice(0, 8),
  0,
  format,
  0,
  tracks,
  ...division,
];

function messagesOf(result: ReturnType<typeof readMidiFile>) {
  if (!result.ok) throw new Error(result.errors[0]!.message);
  return result.value.messages;
}
const errorOf = (result: ReturnType<typeof readMidiFile>) =>
  result.ok ? undefined : result.errors[0];

describe('readMidiFile beside midi-file 1.2.4, an independent reader', () => {
  const CONTROL = { noteOn: 0x90, noteOff: 0x80, controller: 0xb0 } as const;

  it.each(TAKES)('%s: the same channel messages at the same ticks', (name) => {
    const expected: number[][] = [];
    for (const events of parseMidi(take(name)).tracks) {
      let tick = 0;
      for (const event of events) {
        tick += event.deltaTime;
        if (event.type === 'noteOn' || event.type === 'noteOff')
          expected.push([
            tick,
            CONTROL[event.type] | event.channel,
            event.noteNumber,
            event.velocity,
          ]);
        if (event.type === 'controller')
          expected.push([
            tick,
            CONTROL.controller | event.channel,
            event.controllerType,
            event.value,
          ]);
      }
    }
    const ours = messagesOf(readMidiFile(take(name))).filter(({ status }) => status < 0xc0);
    // that reader calls a note-on of velocity 0 a note-off; the bytes in the file say 9n
    const plain = ours.map(({ tick, status, data1, data2 }) => [
      tick,
      status >= 0x90 && status < 0xa0 && data2 === 0 ? status - 0x10 : status,
      data1,
      data2,
    ]);
    expect(plain).toEqual(expected);
    expect(ours.length).toBeGreaterThan(10);
  });

  // [F] length of the performances in seconds, table of the Groove MIDI Dataset
  it.each([
    ['take-02.mid', 22.4],
    ['take-07.mid', 35.7],
    ['take-09.mid', 1.9],
    ['take-10.mid', 3.7],
  ])(
    '%s: the last note ends at the %f s of the dataset table, to its one decimal',
    (name, seconds) => {
      const notes = messagesOf(readMidiFile(take(name))).filter(({ status }) => status < 0xa0);
      expect((notes.at(-1)!.timeUs / 1e6).toFixed(1)).toBe(seconds.toFixed(1));
    },
  );
});

describe('readMidiFile, times', () => {
  it('rounds a tick once, however far from the start', () => {
    // 1 tick = 500000 / 96 = 5208.333... us
    const found = messagesOf(withEvents(1, 0x99, 38, 1, 2, 38, 2, 93, 38, 3, ...END));
    expect(found.map(({ timeUs }) => timeUs)).toEqual([5208, 15625, 500000]);
  });

  it('follows tempo changes from any track', () => {
    const result = readBytes(
      ...header(1, 2, 0, 96),
      ...track(0, 0x99, 38, 1, 96, 38, 2, 96, 38, 3, ...END),
      ...track(96, 0xff, 0x51, 3, 0x0f, 0x42, 0x40, ...END),
    );
    expect(messagesOf(result).map(({ timeUs }) => timeUs)).toEqual([0, 500_000, 1_500_000]);
  });
});

describe('readMidiFile, leniency', () => {
  it('keeps running status over a meta event and over sysex', () => {
    const found = messagesOf(
      withEvents(0, 0x99, 38, 64, 0, 0xff, 1, 1, 65, 0, 36, 80, 0, 0xf0, 1, 0xf7, 0, 37, 9, ...END),
    );
    expect(found.map(({ data1 }) => data1)).toEqual([38, 36, 37]);
  });

  it('does without an end of track', () => {
    expect(messagesOf(withEvents(0, 0x99, 38, 64))).toHaveLength(1);
  });

  it('skips chunks it does not know, a longer header and bytes after the last track', () => {
    const header8 = [...HEADER.slice(0, 7), 8, ...HEADER.slice(8), 1, 2];
    const unknown = [0x58, 0x46, 0x49, 0x48, 0, 0, 0, 2, 9, 9];
    const events = track(0, 0x99, 38, 64, ...END);
    expect(messagesOf(readBytes(...header8, ...unknown, ...events, 0, 0))).toHaveLength(1);
  });

  it('reads the names of tracks as Latin-1', () => {
    const result = withEvents(0, 0xff, 3, 3, 0x51, 0x75, 0xe9, ...END);
    expect(result.ok && result.value.names).toEqual(['Qué']);
  });
});

describe('readMidiFile, many events', () => {
  it('reads 140,000 changes of tempo and 120,000 of meter, which a stack would not hold', () => {
    const many = (count: number, event: readonly number[]) => {
      const events = Array.from({ length: count }, () => event).flat();
      const { length } = events;
      return [
        0x4d,
        0x54,
        0x72,
        0x6b,
        ...[24, 16, 8, 0].map((bits) => (length >> bits) & 255),
      ].concat(events);
    };
    // 500,000 microseconds a quarter; 4/4 with 24 clocks a click: RP-001's own examples.
    const tempos = readMidiFile(
      Uint8Array.from([...HEADER].concat(many(140_000, [0, 0xff, 0x51, 3, 7, 0xa1, 0x20]))),
    );
    expect(tempos.ok && tempos.value.tempos).toHaveLength(140_000);
    const meters = readMidiFile(
      Uint8Array.from([...HEADER].concat(many(120_000, [0, 0xff, 0x58, 4, 4, 2, 24, 8]))),
    );
    expect(meters.ok && meters.value.meters).toHaveLength(120_000);
  });
});

describe('readMidiFile, errors', () => {
  const nowhere = { track: undefined };
  it.each([
    ['NOT_MIDI', 0, nowhere, readBytes(1, 2, 3)],
    ['FORMAT', 8, nowhere, readBytes(...header(2, 1, 0, 96))],
    ['FORMAT', 8, nowhere, readBytes(...header(3, 1, 0, 96))],
    ['DIVISION', 12, nowhere, readBytes(...header(0, 1, 0, 0))],
    ['DIVISION', 12, nowhere, readBytes(...header(0, 1, 0xe7, 0))],
    ['DIVISION', 12, nowhere, readBytes(...header(0, 1, 0xff, 40))],
    ['CUT_OFF', 14, nowhere, readBytes(...HEADER)],
    ['CUT_OFF', 14, nowhere, readBytes(...HEADER, ...track(...END).slice(0, -2))],
    ['CUT_OFF', 25, { track: 1 }, withEvents(0, 0x99, 38)],
    ['CUT_OFF', 26, { track: 1 }, withEvents(0, 0xff, 1, 9, 65)],
    ['NO_STATUS', 23, { track: 1 }, withEvents(0, 38, 64, ...END)],
    ['STATUS', 23, { track: 1 }, withEvents(0, 0xf8, ...END)],
    ['DATA', 25, { track: 1 }, withEvents(0, 0x99, 38, 0x80, ...END)],
    ['TEMPO', 23, { track: 1 }, withEvents(0, 0xff, 0x51, 3, 0, 0, 0, ...END)],
    ['METER', 23, { track: 1 }, withEvents(0, 0xff, 0x58, 4, 0, 2, 24, 8, ...END)],
    ['NUMBER', 22, { track: 1 }, withEvents(0x81, 0x80, 0x80, 0x80, 0, 0x99, 38, 1)],
    // the event on which midi-file 1.2.4 steps back for ever
    ['NUMBER', 25, { track: 1 }, withEvents(0, 0xff, 0x7f, 0x8f, 0xff, 0xff, 0xff, 0x78)],
    [
      'TOO_LONG',
      45,
      nowhere,
      withEvents(
        0xff,
        0xff,
        0xff,
        0x7f,
        0x99,
        38,
        1,
        0xff,
        0xff,
        0xff,
        0x7f,
        38,
        1,
        0,
        0x99,
        38,
        1,
        0,
        0,
        0,
        0,
        0,
        0,
      ),
    ],
    ['TOO_LARGE', 0, nowhere, readMidiFile(new Uint8Array(2_000_001))],
    [
      'TOO_MANY_TRACKS',
      14 + 64 * 12,
      nowhere,
      readBytes(...header(1, 65, 0, 96), ...Array.from({ length: 65 }, () => track(...END)).flat()),
    ],
    [
      'TOO_MANY_EVENTS',
      14 + 8 + 636_001,
      { track: 1 },
      readMidiFile(
        Uint8Array.from([
          ...HEADER,
          0x4d,
          0x54,
          0x72,
          0x6b,
          0,
          9,
          0xb4,
          0x64,
          0,
          0x99,
          38,
          1,
          ...Array.from({ length: 212_000 }, () => [0, 38, 1]).flat(),
        ]),
      ),
    ],
  ] as const)('%s at byte %i', (code, at, place, result) => {
    expect(errorOf(result)).toMatchObject({ code, at });
    expect(errorOf(result)?.track).toBe(place.track);
    expect(errorOf(result)?.message).toMatch(/^At byte \d+.*\.$/);
  });
});

describe('a take file and a MIDI file have one limit', () => {
  const DAY_US = 24 * 3600e6;
  const steady = { tempos: [{ fromBeat: beats(0), bpm: 60 }], meter: parseMeter('4/4')! };
  const strokeAt = (timeUs: number) => ({ timeUs, status: 0x99, data1: 38, data2: 64 });
  const read = (timesUs: readonly number[]) =>
    readMidiFile(writeMidiFile({ ...steady, countInBars: 0, messages: timesUs.map(strokeAt) }));

  it.each([
    ['two hours', 7200e6, undefined],
    ['a day', DAY_US, undefined],
    ['a tick more than a day', DAY_US + 34, 'TOO_LONG'],
  ])('%s', (_, timeUs, code) => {
    expect(errorOf(read([0, timeUs]))?.code).toBe(code);
  });

  it('as many messages as a take may have, wherever they are', () => {
    const messages = Array.from({ length: 200_000 }, (_, i) => i * 40_000);
    expect(messagesOf(read(messages))).toHaveLength(200_000);
  });
});

describe('readMidiFile, damaged files', () => {
  const whole = take('take-07.mid');
  const edit = fc.record({
    at: fc.nat(whole.length - 1),
    kind: fc.constantFrom('cut', 'set', 'insert', 'delete'),
    byte: fc.nat(255),
  });

  function damage(edits: readonly { at: number; kind: string; byte: number }[]): Uint8Array {
    const bytes = [...whole];
    for (const { at, kind, byte } of edits) {
      if (kind === 'cut') bytes.length = Math.min(bytes.length, at);
      else if (kind === 'set') bytes[Math.min(at, bytes.length)] = byte;
      else if (kind === 'insert') bytes.splice(at, 0, byte);
      else bytes.splice(at, 1);
    }
    return Uint8Array.from(bytes);
  }

  function expectSound(bytes: Uint8Array) {
    const result = readMidiFile(bytes);
    if (!result.ok) {
      const error = result.errors[0]!;
      expect(error.at).toBeGreaterThanOrEqual(0);
      expect(error.at).toBeLessThanOrEqual(bytes.length);
      return;
    }
    let before = 0;
    for (const { timeUs, status, data1, data2 } of result.value.messages) {
      const sound =
        Number.isInteger(timeUs) &&
        timeUs >= before &&
        timeUs <= 86_400e6 &&
        status >= 0x80 &&
        status < 0xf0 &&
        data1 >= 0 &&
        data1 < 128 &&
        data2 >= 0 &&
        data2 < 128;
      if (!sound) expect({ timeUs, status, data1, data2 }).toBe('a sound message');
      before = timeUs;
    }
  }

  it('an error or sound messages, whatever bytes come', () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 8 }), (edits) =>
        expectSound(damage(edits)),
      ),
      { numRuns: runCount(300) },
    );
  });

  it('the same for bytes that are nothing like a take', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (events) =>
        expectSound(Uint8Array.from([...HEADER, ...track(...events)])),
      ),
      { numRuns: runCount(500) },
    );
  });
});
