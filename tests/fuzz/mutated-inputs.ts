import { readdirSync, readFileSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import { setImmediate } from 'node:timers/promises';
import { isDeepStrictEqual } from 'node:util';
import { fileKind } from '../../src/exchange/file-kind';
import { midiOfPhrase } from '../../src/exchange/midi-of-phrase';
import { phraseInFile } from '../../src/exchange/phrase-in-file';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { parseKit, writeKit } from '../../src/kit/parse-kit';
import { readStrokes } from '../../src/kit/read-strokes';
import { openTake } from '../../src/live/open-take';
import { readMxl, writeMxl } from '../../src/notation/musicxml/mxl';
import { readMusicXml, type MusicXmlReading } from '../../src/notation/musicxml/read-musicxml';
import { writeMusicXml } from '../../src/notation/musicxml/write-musicxml';
import { layerScore } from '../../src/notation/score/layer-score';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { readLink, writeLink } from '../../src/phrase/file/phrase-link';
import { parsePhrases, writeBriefly, writePhrases } from '../../src/phrase/file/phrase-list';
import type { Phrase } from '../../src/phrase/model/phrase';
import { RAW_DEFLATE } from '../../src/practice/files/raw-deflate';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { summaryOf } from '../../src/practice/takes/take-scoring';
import { readMidiFile } from '../../src/take/read-midi-file';
import { takeOfMidiFile } from '../../src/take/take-of-midi-file';
import { takeCsv } from '../../src/take/take-csv';
import { parseTake, writeTake } from '../../src/take/take-json';
import { takeMidi } from '../../src/take/take-midi';
import { beats } from '../../src/time/beats';
import { parseMeter } from '../../src/time/meter';
import type { Result } from '../../src/time/result';
import { mutatedXml } from './xml-mutation';
import { drawFrom, mutatedBytes, mutatedJson, mutatedValues } from './mutation';

const SHARED = new URL('../../shared/', import.meta.url);

const filesIn = (folder: string, ending: string) => {
  const place = new URL(`${folder}/`, SHARED);
  return readdirSync(place)
    .filter((name) => name.endsWith(ending))
    .map((name) => readFileSync(new URL(name, place)));
};
const PHRASES = filesIn('phrases', '.json').map((bytes) => bytes.toString());
const RECORDINGS = filesIn('takes', '.mid');
const KITS = [
  GENERAL_MIDI,
  {
    ...EDGE_AND_RIM,
    crosstalk: [{ struck: 'bass drum', answers: 'snare', withinMs: 4, upToPercent: 20 }],
  },
];
const METER = parseMeter('4/4')!;

/** Every phrase of the library as a MIDI file, its last layer. */
const DRUM_PARTS = PHRASES.map((text) => {
  const phrase = parsePhrase(text);
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  return midiOfPhrase(phrase.value);
});
/** Past the headers of file and track. */
const EVENTS_FROM = 22;

/** So short that many are read, and long enough for both layers and both tempos. */
const TAKE_US = 10_000_000;

/** The beginning of a recording to each phrase, as take files. */
const TAKES = PHRASES.map((phraseText, i) => {
  const read = readMidiFile(RECORDINGS[i % RECORDINGS.length]!);
  if (!read.ok) throw new Error(read.errors[0]!.message);
  const take = {
    startedAt: '2026-05-04T18:00:00.000Z',
    phraseText,
    passages: [
      { fromBar: 1, layer: 1 },
      { fromBar: 3, layer: 2 },
    ],
    tempos: [
      { fromBeat: beats(0), bpm: 90 },
      { fromBeat: beats(60, 7), bpm: 100 },
    ],
    countInBars: 1,
    endUs: TAKE_US,
    kit: KITS[i % KITS.length]!,
    deviceOffsetMs: i,
    toleranceMs: 30,
    reachMs: 90,
    messages: read.value.messages.filter(({ timeUs }) => timeUs < TAKE_US),
  };
  return JSON.parse(writeTake(take)) as unknown;
});

/** Two bars of the last layer of each phrase. */
const SCORES = PHRASES.map((text) => {
  const phrase = parsePhrase(text);
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  return layerScore(phrase.value, phrase.value.layers.length, 2);
});
const MUSICXML = SCORES.map((score) => writeMusicXml([score]));
const MXL = SCORES.map((score) => writeMxl([score]));

type Outcome = 'refused' | 'accepted';

/** What came of an input: refused, or accepted and taken through all that is done with one. */
type Reading = (input: string | Uint8Array) => Outcome | Promise<Outcome>;

interface Kind {
  /** A mutated input; a seed gives the same one each time. */
  readonly input: (seed: number) => string | Uint8Array;
  readonly read: Reading;
}

const broken = (what: string): never => {
  throw new Error(what);
};

const jsonOf = (files: readonly unknown[]) => (seed: number) => {
  const draw = drawFrom(seed);
  return mutatedJson(files[draw(files.length)], draw);
};

const PHRASE_FILES = PHRASES.map((text) => JSON.parse(text) as unknown);

/** Files of one phrase to four. */
const LISTS = PHRASE_FILES.map((_, i) => ({ phrases: PHRASE_FILES.slice(i, i + 1 + (i % 4)) }));

const linkTo = (text: string | Uint8Array) =>
  `http://localhost:4173/#open/p1.${deflateRawSync(text).toString('base64url')}`;
const LINKS = LISTS.map((list) => linkTo(JSON.stringify(list)));

/** Texts that pack small and inflate to any length. */
const BOMBS: readonly ((length: number) => string)[] = [
  (length) => ' '.repeat(length),
  (length) => `{"phrases":[${'{},'.repeat(length / 3)}{}]}`,
  (length) => '['.repeat(length),
  (length) => `{"phrases":[${'{"title":'.repeat(length / 9)}`,
  (length) => `{"title":${'{"title":'.repeat(length / 18)}1${'}'.repeat(length / 18)}}`,
  (length) => `{${'"__proto__":{},'.repeat(length / 15)}"phrases":[]}`,
  (length) =>
    JSON.stringify({ phrases: [{ ...LISTS[0]!.phrases[0]!, title: 'x'.repeat(length) }] }),
];
const ONE_BOMB_IN = 100;

/** A link with faults in its letters, in what is packed, or in what that inflates to. */
function mutatedLink(seed: number): string {
  const draw = drawFrom(seed);
  if (draw(ONE_BOMB_IN) === 0) return linkTo(BOMBS[draw(BOMBS.length)]!(1 + draw(2_000_000)));
  const list = LISTS[draw(LISTS.length)]!;
  const other = LINKS[draw(LINKS.length)]!;
  const bytes = (text: string) => new Uint8Array(Buffer.from(text));
  switch (draw(3)) {
    case 0:
      return Buffer.from(
        mutatedBytes(bytes(linkTo(JSON.stringify(list))), bytes(other), draw),
      ).toString('latin1');
    case 1: {
      const packed = mutatedBytes(deflateRawSync(JSON.stringify(list)), bytes(other), draw);
      return `http://localhost:4173/#open/p1.${Buffer.from(packed).toString('base64url')}`;
    }
    default:
      return linkTo(mutatedJson(list, draw));
  }
}

const isSame = (read: Awaited<ReturnType<typeof readLink>>, phrases: readonly Phrase[]): boolean =>
  read.ok && isDeepStrictEqual(read.value, phrases);

/** The kinds of file that are read, each with a way to break it. */
export const FUZZED = {
  midi: {
    input: (seed) => {
      const draw = drawFrom(seed);
      const any = () => RECORDINGS[draw(RECORDINGS.length)]!;
      return mutatedBytes(any(), any(), draw);
    },
    read: (input) => {
      const file = readMidiFile(input as Uint8Array);
      if (!file.ok) return 'refused';
      const { messages } = file.value;
      if (messages.some(({ timeUs }, i) => !(timeUs >= (messages[i - 1]?.timeUs ?? 0))))
        broken('messages are out of order');
      takeOfMidiFile(file.value, { meter: METER, countInBars: 1 });
      readStrokes(messages, EDGE_AND_RIM);
      phraseInFile(file.value);
      return 'accepted';
    },
  },
  'drum part': {
    input: (seed) => {
      const draw = drawFrom(seed);
      return mutatedValues(DRUM_PARTS[draw(DRUM_PARTS.length)]!, EVENTS_FROM, draw);
    },
    read: (input) => {
      const file = readMidiFile(input as Uint8Array);
      const found = file.ok ? phraseInFile(file.value) : file;
      if (!found.ok) return 'refused';
      const { phrase, remarks } = found.value;
      if (remarks.some(({ sentence }) => !sentence.endsWith('.')))
        broken('a remark is no sentence');
      if (!readMidiFile(midiOfPhrase(phrase, { bars: 2 })).ok)
        broken('what was written is no file');
      return 'accepted';
    },
  },
  phrase: {
    input: jsonOf(PHRASE_FILES),
    read: (input) => {
      const phrase = parsePhrase(input as string);
      if (!phrase.ok) return 'refused';
      const again = parsePhrase(writePhrase(phrase.value));
      if (!again.ok || !isDeepStrictEqual(again.value, phrase.value))
        broken('what was written reads otherwise');
      return 'accepted';
    },
  },
  phrases: {
    input: jsonOf(LISTS),
    read: (input) => {
      fileKind(Buffer.from(input as string));
      const phrases = parsePhrases(input as string);
      if (!phrases.ok) return 'refused';
      for (const write of [writePhrases, writeBriefly])
        if (!isSame(parsePhrases(write(phrases.value)), phrases.value))
          broken('what was written reads otherwise');
      return 'accepted';
    },
  },
  link: {
    input: mutatedLink,
    read: async (input) => {
      fileKind(Buffer.from(input as string));
      const phrases = await readLink(input as string, RAW_DEFLATE);
      if (!phrases.ok) return 'refused';
      const again = await writeLink(phrases.value, 'http://localhost/', RAW_DEFLATE);
      if (!again.ok || !isSame(await readLink(again.value, RAW_DEFLATE), phrases.value))
        broken('what was written reads otherwise');
      return 'accepted';
    },
  },
  kit: {
    input: jsonOf(KITS),
    read: (input) => {
      const kit = parseKit(input as string);
      if (!kit.ok) return 'refused';
      const again = parseKit(writeKit(kit.value));
      if (!again.ok || !isDeepStrictEqual(again.value, kit.value))
        broken('what was written reads otherwise');
      const decoder = new KitDecoder(kit.value);
      for (let note = 0; note < 128; note++) decoder.read(1000 * note, 0x99, note, 90);
      return 'accepted';
    },
  },
  take: {
    input: jsonOf(TAKES),
    read: (input) => {
      const take = parseTake(input as string);
      if (!take.ok) return 'refused';
      summaryOf(take.value, openTake(take.value));
      takeCsv(take.value);
      takeMidi(take.value);
      return 'accepted';
    },
  },
  musicxml: {
    input: (seed) => {
      const draw = drawFrom(seed);
      return mutatedXml(MUSICXML[draw(MUSICXML.length)]!, draw);
    },
    read: (input) => readScore(readMusicXml(input as string)),
  },
  mxl: {
    input: (seed) => {
      const draw = drawFrom(seed);
      const any = () => MXL[draw(MXL.length)]!;
      return mutatedBytes(any(), any(), draw);
    },
    read: (input) => readScore(readMxl(input as Uint8Array)),
  },
} satisfies Record<string, Kind>;

function readScore(reading: Result<MusicXmlReading, unknown>): 'refused' | 'accepted' {
  if (!reading.ok) return 'refused';
  const { phrase } = reading.value;
  if (!parsePhrase(writePhrase(phrase)).ok) broken('the phrase is none');
  const again = readMusicXml(writeMusicXml([layerScore(phrase, phrase.layers.length, 1)]));
  if (!again.ok && again.errors[0]!.code !== 'PATTERN_EMPTY') broken('what was written is refused');
  return 'accepted';
}

export type FuzzedKind = keyof typeof FUZZED;

/** What became of so many inputs. */
export interface FuzzReport {
  readonly inputs: number;
  readonly accepted: number;
  /** Seeds of the inputs at which something was thrown, and what. */
  readonly thrown: readonly { readonly seed: number; readonly error: string }[];
  /** The slowest of all, in milliseconds a kB begun. */
  readonly slowest: { readonly seed: number; readonly msPerKb: number };
}

/** Where times are long the processor's own is taken, since others work on the machine as well. */
const LONG_MS_PER_KB = 25;

/** What a `WeakRef` was asked for stays until the turn is over: after so many inputs one is. */
const INPUTS_A_TURN = 1000;

/** Reads so many mutated inputs of a kind, from a seed on, for so long at most. */
export async function fuzz(
  kind: FuzzedKind,
  { inputs, seed: first, seconds = Infinity }: { inputs: number; seed: number; seconds?: number },
): Promise<FuzzReport> {
  const { input: inputOf, read }: Kind = FUZZED[kind];
  const thrown: { seed: number; error: string }[] = [];
  let slowest = { seed: first, msPerKb: 0 };
  let accepted = 0;
  let done = 0;
  const endMs = performance.now() + 1000 * seconds;
  for (; done < inputs && performance.now() < endMs; done++) {
    if (done % INPUTS_A_TURN === 0) await setImmediate();
    const seed = first + done;
    const input = inputOf(seed);
    const kilobytes = Math.max(1, input.length / 1024);
    const processorMs = async () => {
      const before = process.cpuUsage();
      await read(input);
      const { user, system } = process.cpuUsage(before);
      return (user + system) / 1000;
    };
    try {
      const startMs = performance.now();
      if ((await read(input)) === 'accepted') accepted++;
      let took = (performance.now() - startMs) / kilobytes;
      for (let again = 0; again < 2 && took > LONG_MS_PER_KB; again++)
        took = Math.min(took, (await processorMs()) / kilobytes);
      if (took > slowest.msPerKb) slowest = { seed, msPerKb: took };
    } catch (error) {
      thrown.push({ seed, error: String(error) });
    }
  }
  return { inputs: done, accepted, thrown, slowest };
}
