import type { PlayedClicks, Recording } from '../../../../src/clock/latency/microphone/recording';
import { clickSamples } from '../../../../src/sound/synth/clicks';
import { chance, type Chance } from '../../../../src/time/chance';

/** A rig, a room and a player; every one left out is as told. */
export interface Room {
  /** Output delay that the clock map does not know of, ms. */
  readonly outputMs?: number;
  /** Output delay that it does know of, ms. */
  readonly reportedMs?: number;
  /** Delay of the microphone, ms. */
  readonly inputMs?: number;
  /** What the kit and its cable take, ms, and the length of a USB frame or radio interval, ms. */
  readonly kitMs?: number;
  readonly frameMs?: number;
  /** Click over noise, dB: means of squares over the first 20 ms of a click. */
  readonly signalToNoiseDb?: number;
  /** Level of the loudest pad stroke against the click, dB. */
  readonly padDb?: number;
  /** Level of the first echo, dB, and how long the room rings for 60 dB, s; no echo when left out. */
  readonly echoDb?: number;
  readonly ringSeconds?: number;
  /** Level of 50 Hz hum against the click's peak, dB. */
  readonly humDb?: number;
  /** Samples are cut off above this share of the click's peak. */
  readonly clipAt?: number;
  readonly sampleRate?: number;
  /** What the recording claims its rate is. */
  readonly claimedRate?: number;
  /** Where in the beat the player strikes, 0 the click, and how evenly, ms. */
  readonly placeInBeat?: number;
  readonly playerSpreadMs?: number;
  readonly strokes?: number;
  /** On how many of the first beats there is a click; on every one when left out. */
  readonly clicks?: number;
  readonly flipped?: boolean;
  /** Drift of the audio clock against the performance clock, parts per million. */
  readonly driftPpm?: number;
}

export interface HeardRoom {
  readonly recording: Recording;
  readonly clicks: PlayedClicks;
  readonly stampsMs: readonly number[];
  /** What the measurement should find, ms. */
  readonly trueOffsetMs: number;
}

const BEAT_SECONDS = 0.75;
/** Performance time at audio time 0, and the audio time at which the recording starts. */
const PERFORMANCE_MS = 4321;
const START_SECONDS = 2;

/** A second of white noise, normal, made once: a run takes it from a place of its own. */
const HISS = (() => {
  const { normal } = chance(1);
  return Float32Array.from({ length: 1 << 18 }, () => normal());
})();

export function simulatedRoom(seed: number, room: Room = {}): HeardRoom {
  const { outputMs = 14, reportedMs = 28, inputMs = 21, kitMs = 4, frameMs = 1 } = room;
  const { signalToNoiseDb = 30, padDb = -6, sampleRate = 48_000, strokes = 32 } = room;
  const { placeInBeat = 0.5, playerSpreadMs = 15, driftPpm = 0 } = room;
  const luck = chance(seed);
  const rate = 1 + driftPpm * 1e-6;
  /** The map: audio time is heard `reportedMs` later. */
  const performanceMsAt = (audioSeconds: number) =>
    PERFORMANCE_MS + (audioSeconds * 1000) / rate + reportedMs;
  /** Where in the recording a sound lies that is in the air at a performance time. */
  const placeOf = (airMs: number) =>
    (((airMs + inputMs - PERFORMANCE_MS) * rate) / 1000 - START_SECONDS) * sampleRate;

  const atSeconds = Array.from(
    { length: strokes },
    (_, k) => START_SECONDS + 0.3 + k * BEAT_SECONDS,
  );
  const clickedAt = atSeconds.slice(0, room.clicks);
  const length = Math.ceil((strokes + 1.5) * BEAT_SECONDS * sampleRate);
  const samples = new Float32Array(length);
  const click = clickSamples('bar', sampleRate);
  const clickResponse = inRoom(click, sampleRate, room, luck);
  for (const at of clickedAt)
    lay(samples, clickResponse, placeOf(performanceMsAt(at) + outputMs), 1);

  const padEcho: Room = { ...room, echoDb: (room.echoDb ?? -200) - 6 };
  const stampsMs = atSeconds.map((at) => {
    const strikeMs =
      performanceMsAt(at + placeInBeat * BEAT_SECONDS) + outputMs + playerSpreadMs * luck.normal();
    const softer = 10 ** ((padDb - 8 * luck.share()) / 20);
    lay(
      samples,
      inRoom(padStrike(sampleRate, luck), sampleRate, padEcho, luck, 6),
      placeOf(strikeMs),
      softer,
    );
    return Math.ceil((strikeMs + kitMs + luck.share() * 0.05) / frameMs) * frameMs;
  });

  addNoise(samples, click, signalToNoiseDb, sampleRate, luck);
  if (room.humDb !== undefined) addHum(samples, 10 ** (room.humDb / 20), sampleRate);
  const sign = room.flipped === true ? -1 : 1;
  const limit = room.clipAt ?? Infinity;
  const heard = samples.map((sample) => Math.min(limit, Math.max(-limit, sign * sample)));
  return {
    recording: {
      samples: heard,
      sampleRate: room.claimedRate ?? sampleRate,
      startSeconds: START_SECONDS,
      performanceMsAt,
    },
    clicks: { atSeconds: clickedAt, samplesAt: (hertz) => clickSamples('bar', hertz) },
    stampsMs,
    // A stamp is rounded up to the next frame: half a frame on the average.
    trueOffsetMs: outputMs + kitMs + 0.025 + frameMs / 2,
  };
}

/** A stick on rubber or mesh: a burst that rises within half a millisecond, over a dull thud. */
function padStrike(sampleRate: number, { share, next }: Chance): Float32Array {
  const out = new Float32Array(Math.round(0.08 * sampleRate));
  const hertz = 160 + 80 * share();
  const from = next() % (HISS.length - out.length);
  for (let i = 0; i < out.length; i++) {
    const seconds = i / sampleRate;
    const rise = Math.min(1, seconds / 0.0004);
    const burst = HISS[from + i]! * Math.exp(-seconds / 0.006) * 0.3;
    const thud = Math.sin(2 * Math.PI * hertz * seconds) * Math.exp(-seconds / 0.025) * 0.6;
    out[i] = rise * (burst + thud);
  }
  return out;
}

/** The sound with six early echoes and a ring of `taps` more that dies away. */
function inRoom(
  dry: Float32Array,
  sampleRate: number,
  { echoDb, ringSeconds = 0.4 }: Room,
  { share }: Chance,
  taps = 40,
): Float32Array {
  if (echoDb === undefined || echoDb < -100) return dry;
  const out = new Float32Array(dry.length + Math.round(ringSeconds * sampleRate));
  out.set(dry);
  const first = 10 ** (echoDb / 20);
  for (let tap = 0; tap < 6 + taps; tap++) {
    const seconds = tap < 6 ? 0.002 + 0.028 * share() : 0.03 + share() * (ringSeconds - 0.03);
    const gain = first * 10 ** ((-3 * seconds) / ringSeconds) * (share() < 0.5 ? -1 : 1);
    const from = Math.round(seconds * sampleRate);
    for (let i = 0; i < dry.length && from + i < out.length; i++) out[from + i]! += gain * dry[i]!;
  }
  return out;
}

/** Adds a sound at a place between samples. */
function lay(samples: Float32Array, sound: Float32Array, place: number, gain: number): void {
  const whole = Math.floor(place);
  const part = place - whole;
  for (let i = 0; i <= sound.length; i++) {
    const value = (1 - part) * (sound[i] ?? 0) + part * (i > 0 ? sound[i - 1]! : 0);
    if (whole + i >= 0 && whole + i < samples.length) samples[whole + i]! += gain * value;
  }
}

function addNoise(
  samples: Float32Array,
  click: Float32Array,
  decibels: number,
  sampleRate: number,
  { next }: Chance,
): void {
  const beginning = click.subarray(0, Math.round(0.02 * sampleRate));
  const power = beginning.reduce((sum, sample) => sum + sample * sample, 0) / beginning.length;
  const level = Math.sqrt(power) * 10 ** (-decibels / 20);
  const from = next() % HISS.length;
  for (let i = 0; i < samples.length; i++)
    samples[i]! += level * HISS[(from + i * 5) % HISS.length]!;
}

function addHum(samples: Float32Array, level: number, sampleRate: number): void {
  for (let i = 0; i < samples.length; i++) {
    const angle = (2 * Math.PI * 50 * i) / sampleRate;
    samples[i]! +=
      level * (Math.sin(angle) + 0.4 * Math.sin(3 * angle) + 0.2 * Math.sin(5 * angle));
  }
}
