import { describe, expect, it } from 'vitest';
import { ByteCursor } from '../../src/take/byte-cursor';
import {
  meterEvent,
  midiFileBytes,
  tempoEvent,
  variableLengthBytes,
} from '../../src/take/midi-bytes';
import type { MidiFile } from '../../src/take/midi-file';
import { readMidiFile } from '../../src/take/read-midi-file';
import { textOfBytes, utf8Bytes } from '../../src/take/utf8';
import { parseMeter } from '../../src/time/meter';

/** Bytes from hex text; spaces and bars are for the reader. */
const bytes = (hex: string): Uint8Array =>
  Uint8Array.from(hex.replace(/[\s|]/g, '').match(/../g) ?? [], (pair) => parseInt(pair, 16));

function read(hex: string): MidiFile {
  const file = readMidiFile(bytes(hex));
  if (!file.ok) throw new Error(file.errors[0]!.message);
  return file.value;
}

/** [F] The worked file of the Standard MIDI File specification (RP-001), format 0. */
const WORKED_FORMAT_0 = `4D546864 00000006 0000 0001 0060 4D54726B 0000003B
  00 FF58 04 04021808 | 00 FF51 03 07A120 | 00 C0 05 | 00 C1 2E | 00 C2 46 | 00 92 30 60 | 00 3C 60
  60 91 43 40 | 60 90 4C 20 | 81 40 82 30 40 | 00 3C 40 | 00 81 43 40 | 00 80 4C 40 | 00 FF2F 00`;

/** The same in format 1: header, first and second track [F], third and fourth [M], lengths add up. */
const WORKED_FORMAT_1 = `4D546864 00000006 0001 0004 0060
  4D54726B 00000014 00 FF58 04 04021808 | 00 FF51 03 07A120 | 83 00 FF2F 00
  4D54726B 00000010 00 C0 05 | 81 40 90 4C 20 | 81 40 4C 00 | 00 FF2F 00
  4D54726B 0000000F 00 C1 2E | 60 91 43 40 | 82 20 43 00 | 00 FF2F 00
  4D54726B 00000015 00 C2 46 | 00 92 30 60 | 00 3C 60 | 83 00 30 00 | 00 3C 00 | 00 FF2F 00`;

/** Note-ons and note-offs (velocity 0 included) as text, one order for both files. */
const notes = ({ messages }: MidiFile) =>
  messages
    .filter(({ status }) => status < 0xa0)
    .map(({ tick, timeUs, status, data1, data2 }) => {
      const on = status >= 0x90 && data2 > 0;
      return `${tick} ${timeUs} ch${(status & 15) + 1} ${data1} ${on ? data2 : 'off'}`;
    })
    .sort();

describe('the worked files of RP-001', () => {
  it('gives the notes of the specification, with absolute ticks at 96 a quarter [C]', () => {
    expect(notes(read(WORKED_FORMAT_0))).toEqual(
      [
        '0 0 ch3 48 96',
        '0 0 ch3 60 96',
        '96 500000 ch2 67 64',
        '192 1000000 ch1 76 32',
        '384 2000000 ch3 48 off',
        '384 2000000 ch3 60 off',
        '384 2000000 ch2 67 off',
        '384 2000000 ch1 76 off',
      ].sort(),
    );
  });

  it('reads the same notes from format 1', () => {
    expect(notes(read(WORKED_FORMAT_1))).toEqual(notes(read(WORKED_FORMAT_0)));
  });

  it('reads the meter and the tempo', () => {
    for (const file of [read(WORKED_FORMAT_0), read(WORKED_FORMAT_1)]) {
      expect(file.meters).toEqual([{ tick: 0, count: 4, unit: 4 }]);
      expect(file.tempos).toEqual([{ tick: 0, usPerQuarter: 500_000 }]);
    }
  });
});

/** [F] The table of the specification. */
const QUANTITIES = [
  [0x00000000, '00'],
  [0x00000040, '40'],
  [0x0000007f, '7F'],
  [0x00000080, '81 00'],
  [0x00002000, 'C0 00'],
  [0x00003fff, 'FF 7F'],
  [0x00004000, '81 80 00'],
  [0x00100000, 'C0 80 00'],
  [0x001fffff, 'FF FF 7F'],
  [0x00200000, '81 80 80 00'],
  [0x08000000, 'C0 80 80 00'],
  [0x0fffffff, 'FF FF FF 7F'],
] as const;

describe('variable-length quantities, table of RP-001 [F]', () => {
  it.each(QUANTITIES)('%i is %s, read', (value, hex) => {
    const data = bytes(hex);
    const cursor = new ByteCursor(data, 0, data.length);
    expect(cursor.variableLength()).toBe(value);
    expect(cursor.left).toBe(0);
  });

  it.each(QUANTITIES)('%i is %s, written', (value, hex) => {
    expect(Uint8Array.from(variableLengthBytes(value))).toEqual(bytes(hex));
  });

  // [C] by the rule above: times that drum parts have, in ticks of 480 and 960 a quarter
  it.each([
    [96, '60'],
    [120, '78'],
    [192, '81 40'],
    [240, '81 70'],
    [480, '83 60'],
    [960, '87 40'],
    [1920, '8F 00'],
  ])('%i is %s, written', (value, hex) => {
    expect(Uint8Array.from(variableLengthBytes(value))).toEqual(bytes(hex));
  });
});

/** [C] Microseconds a quarter; 120 is the example of the specification [F]. */
const TEMPOS = [
  [60, '0F4240'],
  [90, '0A2C2B'],
  [100, '0927C0'],
  [120, '07A120'],
  [140, '068A1B'],
  [174, '0542FC'],
  [180, '051615'],
  [200, '0493E0'],
] as const;

/** The worked file of format 0 as events at ticks: its deltas added up, its running status written out. */
const WORKED_EVENTS: readonly (readonly [tick: number, hex: string])[] = [
  [0, 'C0 05'],
  [0, 'C1 2E'],
  [0, 'C2 46'],
  [0, '92 30 60'],
  [0, '92 3C 60'],
  [96, '91 43 40'],
  [192, '90 4C 20'],
  [384, '82 30 40'],
  [384, '82 3C 40'],
  [384, '81 43 40'],
  [384, '80 4C 40'],
];

describe('what is written', () => {
  it('is the worked file of RP-001 [F] but for its running status [C]', () => {
    const written = midiFileBytes(
      96,
      [
        meterEvent(0, parseMeter('4/4')!),
        tempoEvent(0, 500_000),
        ...WORKED_EVENTS.map(([tick, hex]) => ({ tick, bytes: [...bytes(hex)] })),
      ],
      384,
    );
    const spelled = WORKED_FORMAT_0.replace('0000003B', '0000003D')
      .replace('00 3C 60', '00 92 3C 60')
      .replace('00 3C 40', '00 82 3C 40');
    expect(Buffer.from(written).toString('hex')).toBe(Buffer.from(bytes(spelled)).toString('hex'));
  });

  it.each([
    ['4/4', '04 02 18 08'],
    ['6/8', '06 03 24 08'],
    ['5/4', '05 02 18 08'],
    ['7/8', '07 03 0C 08'],
  ])('%s is FF 58 04 %s (RP-001: 4/4 and 6/8 [F], the others [C])', (text, hex) => {
    const { bytes: written } = meterEvent(0, parseMeter(text)!);
    expect(Uint8Array.from(written)).toEqual(bytes(`FF 58 04 ${hex}`));
  });

  it.each(TEMPOS)('%i quarters a minute are FF 51 03 %s', (bpm, hex) => {
    const { bytes: written } = tempoEvent(0, Math.round(60e6 / bpm));
    expect(Uint8Array.from(written)).toEqual(bytes(`FF 51 03 ${hex}`));
  });

  it('has texts as UTF-8 (RFC 3629 [F]: its examples of Hangul and Chinese)', () => {
    expect(utf8Bytes('\uD55C\uAD6D\uC5B4')).toEqual([...bytes('ED 95 9C EA B5 AD EC 96 B4')]);
    expect(utf8Bytes('\uD84C\uDFB4')).toEqual([...bytes('F0 A3 8E B4')]);
    expect(textOfBytes(bytes('E6 97 A5 E6 9C AC E8 AA 9E'))).toBe('\u65E5\u672C\u8A9E');
  });
});

describe('tempo bytes, microseconds a quarter [C]; 120 is the example of RP-001 [F]', () => {
  it.each(TEMPOS)('%i quarters a minute', (bpm, hex) => {
    const file = read(`4D546864 00000006 0000 0001 0060 4D54726B 0000000B
      00 FF51 03 ${hex} 00 FF2F 00`);
    // the file holds whole microseconds: within half of one
    expect(Math.abs(file.tempos[0]!.usPerQuarter - 60e6 / bpm)).toBeLessThanOrEqual(0.5);
  });
});

describe('time signatures', () => {
  it.each([
    [4, 4, '04 02 18 08'],
    [6, 8, '06 03 24 08'],
    [5, 4, '05 02 18 08'],
    [7, 8, '07 03 0C 08'],
  ])('%i/%i (RP-001: 4/4 and 6/8 [F], the others [C])', (count, unit, hex) => {
    const file = read(`4D546864 00000006 0000 0001 0060 4D54726B 0000000C
      00 FF58 04 ${hex} 00 FF2F 00`);
    expect(file.meters).toEqual([{ tick: 0, count, unit }]);
  });
});

describe('division by frames', () => {
  const at = (division: string, delta: string) =>
    read(
      `4D546864 00000006 0000 0001 ${division} 4D54726B ${
        delta.length === 2 ? '00000008' : '00000009'
      } ${delta} 99 26 40 00 FF2F 00`,
    ).messages[0]!.timeUs;

  it('E7 28 makes ticks of a millisecond (RP-001 [F])', () => {
    expect(at('E728', '81 00')).toBe(128_000);
  });

  it('counts 29 frames as 30 drop frame, 30000/1001 a second [M]', () => {
    expect(at('E301', '1E')).toBe(1_001_000);
  });
});
