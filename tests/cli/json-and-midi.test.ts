import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assessFile, assessTake, type AssessedFile } from '../../src/cli/assess-input';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { timedNotes } from '../../src/match/timed-notes';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { readMidiFile } from '../../src/take/read-midi-file';
import { simulate } from '../../src/take/simulate';
import type { Take } from '../../src/take/take';
import { takeMidi } from '../../src/take/take-midi';
import { beats } from '../../src/time/beats';
import { tempoMap } from '../../src/time/tempo';
import { libraryPhrases } from '../phrase/library-phrases';
import { runCount } from '../run-count';

const LIBRARY = libraryPhrases().map(({ text }) => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return { text, phrase: parsed.value };
});

interface Played {
  readonly at: number;
  readonly seed: number;
  readonly bpm: number;
  readonly secondBpm: number;
  readonly countInBars: number;
  readonly deviceOffsetMs: number;
  readonly layers: readonly number[];
}

/** Ten bars of one layer, then six of another, the tempo changed in the eighth. */
function takeOf({ at, seed, bpm, secondBpm, layers, ...head }: Played): Take {
  const { text, phrase } = LIBRARY[at % LIBRARY.length]!;
  const passages = layers.map((layer, i) => ({
    fromBar: 1 + 10 * i,
    layer: 1 + (layer % phrase.layers.length),
  }));
  const tempos = [
    { fromBeat: beats(0), bpm },
    { fromBeat: beats(7 * phrase.meter.beatsPerBar), bpm: secondBpm },
  ];
  const tempo = tempoMap(tempos);
  const endUs = tempo.usAt(beats(16 * phrase.meter.beatsPerBar));
  const due = timedNotes({ phrase, passages, tempo, windows: {} }, endUs);
  const faults = { spreadMs: 22, missed: 0.04, extra: 0.04, wrongVoices: 0.04, velocitySpread: 9 };
  const offsetUs = Math.round(head.deviceOffsetMs * 1000);
  return {
    ...head,
    startedAt: '2026-05-04T18:20:00.000Z',
    phraseText: text,
    passages,
    tempos,
    endUs,
    kit: GENERAL_MIDI,
    toleranceMs: undefined,
    reachMs: undefined,
    messages: simulate(due, faults, seed).messages.map((one) => ({
      ...one,
      timeUs: one.timeUs + offsetUs,
    })),
  };
}

const played = fc.record({
  at: fc.nat(LIBRARY.length - 1),
  seed: fc.nat(1e6),
  bpm: fc.double({ min: 45, max: 160, noNaN: true }),
  secondBpm: fc.integer({ min: 45, max: 160 }),
  countInBars: fc.integer({ min: 1, max: 2 }),
  deviceOffsetMs: fc.integer({ min: -20, max: 60 }),
  layers: fc.array(fc.nat(7), { minLength: 1, maxLength: 2 }),
});

/** Half a tick at the slower tempo and what is rounded beside it, microseconds. */
const mostOffUs = ({ plan }: AssessedFile): number => {
  const slowest = Math.min(...plan.tempo.changes.map(({ bpm }) => bpm));
  return 60e6 / (slowest * plan.phrase.meter.quartersPerBeat.valueOf()) / 30_240 / 2 + 3;
};

function both(take: Take): { readonly json: AssessedFile; readonly midi: AssessedFile } {
  const parsed = parsePhrase(take.phraseText);
  const file = readMidiFile(takeMidi(take));
  if (!parsed.ok || !file.ok) throw new Error('the take cannot be read');
  const base = { takeName: 'a take', windows: {}, kit: GENERAL_MIDI };
  const asked = { layer: undefined, countInBars: undefined, tempoBpm: undefined };
  return {
    json: assessTake({ ...base, take }),
    midi: assessFile({ ...base, ...asked, file: file.value, phrase: parsed.value }),
  };
}

/** Whether half a tick may decide: a stroke, answering or not, near an edge of a note, or two as near to it. */
function isClose(assessed: AssessedFile): boolean {
  const { notes, extras } = assessed.judgement;
  const strokes = [...notes.flatMap(({ stroke }) => stroke ?? []), ...extras];
  const off = 2 * mostOffUs(assessed);
  return notes.some(({ due }) => {
    const distances = strokes.map(({ timeUs }) => Math.abs(timeUs - due.timeUs));
    const near = distances.filter((distance) => distance <= due.reachUs + off);
    const edges = [due.toleranceUs, due.reachUs, due.reachUs / 2];
    return near.some(
      (one, i) =>
        edges.some((edge) => Math.abs(one - edge) <= off) ||
        near.some((other, j) => j < i && Math.abs(one - other) <= off),
    );
  });
}

describe('a take from its MIDI file', () => {
  it('lawMidiEqualsJson: has the verdicts of its JSON, offsets to half a tick', () => {
    let compared = 0;
    fc.assert(
      fc.property(played, (one) => {
        const { json, midi } = both(takeOf(one));
        if (isClose(json)) return;
        compared++;
        const shown = ({ judgement }: AssessedFile) =>
          judgement.notes.map(({ due, verdict, levelVerdict, stroke }) => ({
            ...{ bar: due.note.bar, onset: due.note.onset.toFraction(), voice: due.note.voice },
            ...{ layer: due.layer, verdict, levelVerdict },
            ...{ velocity: stroke?.velocity, struck: stroke?.voice },
          }));
        expect(shown(midi)).toEqual(shown(json));
        expect(midi.judgement.extras.length).toBe(json.judgement.extras.length);
        json.judgement.notes.forEach(({ offsetUs }, i) => {
          const other = midi.judgement.notes[i]!.offsetUs;
          if (offsetUs !== undefined)
            expect(Math.abs(other! - offsetUs)).toBeLessThanOrEqual(mostOffUs(json));
        });
        expect(midi.plan.passages).toEqual(json.plan.passages);
      }),
      { numRuns: runCount(60) },
    );
    expect(compared).toBeGreaterThan(0);
  });

  it('keeps controllers and pressure, and the hi-hat as its pedal was', () => {
    const take = takeOf({
      ...{ at: 0, seed: 1, bpm: 90, secondBpm: 90, countInBars: 1, deviceOffsetMs: 0 },
      layers: [0],
    });
    const messages = [
      { timeUs: -500_000, status: 0xb9, data1: 4, data2: 127 },
      { timeUs: 0, status: 0x99, data1: 38, data2: 90 },
      { timeUs: 250_000, status: 0xb9, data1: 4, data2: 64 },
      { timeUs: 500_000, status: 0xa9, data1: 49, data2: 127 },
      { timeUs: 500_000, status: 0x89, data1: 38, data2: 0 },
    ];
    const file = readMidiFile(takeMidi({ ...take, messages }));
    if (!file.ok) throw new Error(file.errors[0]!.message);
    expect(file.value.messages.map(({ status, data1, data2 }) => [status, data1, data2])).toEqual(
      messages.map(({ status, data1, data2 }) => [status, data1, data2]),
    );
    const { title, layers } = LIBRARY[0]!.phrase;
    expect(file.value.names).toEqual([title]);
    expect(file.value.texts.map(({ text }) => text)).toEqual([
      'Count-in',
      `Layer 1: ${layers[0]!.name}`,
    ]);
  });
});
