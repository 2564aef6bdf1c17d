import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { capture } from '../../src/capture/capture';
import { decodeTake, type CaptureTake } from '../../src/capture/capture-take';
import { takeInFile } from '../../src/capture/take-in-file';
import { assessWords } from '../../src/cli/assess';
import { captureFile } from '../../src/cli/capture';
import { kitFor, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { RawMessage } from '../../src/kit/raw-message';
import { openTake } from '../../src/live/open-take';
import { timedNotes } from '../../src/match/timed-notes';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import { CaptureRun } from '../../src/practice/capture/capture-run';
import { readMidiFile } from '../../src/take/read-midi-file';
import { simulate } from '../../src/take/simulate';
import { writeMidiFile } from '../../src/take/write-midi-file';
import { chance } from '../../src/time/chance';
import { parseMeter } from '../../src/time/meter';
import { steadyTempo } from '../../src/time/tempo';
import { playRounds, randomPlayings, type Playing } from '../capture/played-rounds';
import { handPage } from '../practice/hand-page';

/** A recorded take as a file, and the words of a command line for it. */
interface Recording {
  readonly path: string;
  readonly messages: readonly RawMessage[];
  readonly bytes: Uint8Array;
}

const NOTES = [36, 38, 42, 43, 45, 46, 48, 49, 51];
/** What the file says where nobody heard it: no tempo that the phrases below are played at. */
const UNHEARD_BPM = 207;

function recorded(path: string, messages: readonly RawMessage[], bpm: number, meter: string) {
  const bytes = writeMidiFile({
    messages,
    tempos: steadyTempo(bpm).changes,
    meter: parseMeter(meter)!,
    countInBars: 0,
  });
  writeFileSync(path, bytes);
  const parsed = readMidiFile(bytes);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return { path, bytes, messages: parsed.value.messages };
}

/** Two bars of sixteenths at 90 with nothing that comes round: every stroke by chance. */
function onceThrough(seed: number): RawMessage[] {
  const { share, normal } = chance(seed);
  return Array.from({ length: 32 }, (_, i) => ({
    timeUs: Math.max(0, Math.round((i * 60e6) / 90 / 4 + 8000 * normal())),
    status: 0x99,
    data1: NOTES[Math.floor(share() * NOTES.length)]!,
    data2: 30 + Math.floor(share() * 90),
  })).sort((a, b) => a.timeUs - b.timeUs);
}

const noteOf = (voice: string) => GENERAL_MIDI.pads.find((pad) => pad.voice === voice)!.note;
const roundsOf = (playing: Playing): RawMessage[] =>
  playRounds(playing).map(({ timeUs, voice, velocity }) => ({
    timeUs: Math.max(0, timeUs),
    status: 0x99,
    data1: noteOf(voice),
    data2: velocity,
  }));

/** What the app makes of a take that it recorded itself or read from a file. */
function inTheApp(take: Pick<CaptureTake, 'messages' | 'clickBpm' | 'meter' | 'fileName' | 'kit'>) {
  const kept = { ...take, id: 'a', at: '2026-01-01T12:00:00Z', isCutShort: false };
  const report = capture(decodeTake(kept));
  return report.ok
    ? { findings: report.value.findings, phrase: withoutTitle(report.value.phrase) }
    : { refusal: report.errors[0]!.message };
}

/** Played to the app's own click, message by message. */
function playedToTheClick({ messages }: Recording, clickBpm: number, meter: string) {
  const kit = kitFor(messages.map(({ data1 }) => data1));
  const { dependencies, page, send } = handPage({ kit });
  const run = new CaptureRun(dependencies, {
    kit,
    deviceOffsetMs: 0,
    click: { bpm: clickBpm, meter: parseMeter(meter)!, countInBars: 1 },
    timeline: undefined,
    onTick: () => undefined,
  });
  run.start();
  const originMs = page.nowMs - run.nowUs() / 1000;
  for (const { timeUs, status, data1, data2 } of messages)
    send(originMs + timeUs / 1000, status, data1, data2);
  run.stop();
  return inTheApp({ messages: run.messages(), clickBpm, meter, fileName: undefined, kit });
}

/** Read from the file on the app's capture screen. */
function readByTheApp({ bytes, path }: Recording) {
  const parsed = readMidiFile(bytes);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  const taken = takeInFile(parsed.value);
  if (!taken.ok) throw new Error(taken.errors[0]!.message);
  const { messages, kit, clickBpm, meter } = taken.value;
  return inTheApp({ messages, kit, clickBpm, meter, fileName: path });
}

function onTheCommandLine(...words: readonly string[]) {
  try {
    const { findings, phrase } = captureFile(words).report;
    return { findings, phrase: withoutTitle(phrase) };
  } catch (error) {
    return { refusal: (error as Error).message.slice(words[0]!.length + 2) };
  }
}

/** The command line names it after the file, the app when it is kept. */
const withoutTitle = (phrase: Phrase): unknown => ({
  ...(JSON.parse(writePhrase(phrase)) as object),
  title: '',
});

function assessedBoth(folder: string, { phrase, layer, tempoBpm, seed }: Playing) {
  const plan = {
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempo: steadyTempo(tempoBpm),
    windows: {},
  };
  const barsUs = (4 * phrase.meter.beatsPerBar * 60e6) / tempoBpm;
  const faults = { spreadMs: 15, missed: 0.05, extra: 0.05, wrongVoice: 0.05, velocitySpread: 8 };
  const { messages } = simulate(timedNotes(plan, Math.round(barsUs)), faults, seed);
  const take = recorded(join(folder, `assess-${seed}.mid`), messages, tempoBpm, phrase.meterText);
  const phrasePath = join(folder, `phrase-${seed}.json`);
  writeFileSync(phrasePath, writePhrase(phrase));
  const words = [take.path, '--phrase', phrasePath, '--layer', String(layer)];
  const { assessed } = assessWords([...words, '--tempo', String(tempoBpm)]);
  const opened = openTake({
    phraseText: writePhrase(phrase),
    passages: plan.passages,
    tempos: plan.tempo.changes,
    countInBars: 0,
    kit: kitFor(take.messages.filter(({ data2 }) => data2 > 0).map(({ data1 }) => data1)),
    deviceOffsetMs: 0,
    toleranceMs: undefined,
    reachMs: undefined,
    messages: take.messages,
  });
  return { app: shown(opened!.judgement), cli: shown(assessed.judgement) };
}

const shown = ({ notes, extras }: ReturnType<typeof assessWords>['assessed']['judgement']) => ({
  notes: notes.map(({ due, verdict, stroke, levelVerdict }) => ({
    dueUs: due.timeUs,
    voice: due.note.voice,
    verdict,
    levelVerdict,
    stroke,
  })),
  extras,
});

export interface BothAnswers {
  readonly about: string;
  readonly app: unknown;
  readonly cli: unknown;
}

/**
 * For each of `count` seeds one take with a click and one without, the odd ones played once through and the even ones
 * several times round, captured by the app's code and the command line's; and a take of a random phrase assessed by both.
 */
export function* bothAnswers(count: number, folder: string, firstSeed = 1): Generator<BothAnswers> {
  const playings = randomPlayings(count, firstSeed);
  for (let k = 0; k < count; k++) {
    const seed = firstSeed + k;
    const playing = playings[k % playings.length]!;
    const isOnce = k % 2 === 0;
    const messages = isOnce ? onceThrough(seed) : roundsOf(playing);
    const [bpm, meter] = isOnce ? [90, '4/4'] : [playing.tempoBpm, playing.phrase.meterText];
    const how = `seed ${seed}, ${isOnce ? 'once through' : 'several times round'}`;
    const path = (name: string) => join(folder, `${name}-${seed}.mid`);
    const clicked = recorded(path('click'), messages, bpm, meter);
    yield {
      about: `${how}, to the click`,
      app: playedToTheClick(clicked, bpm, meter),
      cli: onTheCommandLine(clicked.path, '--tempo', String(bpm)),
    };
    const free = recorded(path('free'), messages, UNHEARD_BPM, meter);
    yield {
      about: `${how}, without a click`,
      app: readByTheApp(free),
      cli: onTheCommandLine(free.path),
    };
    yield { about: `seed ${seed}, assessed`, ...assessedBoth(folder, { ...playing, seed }) };
  }
}
