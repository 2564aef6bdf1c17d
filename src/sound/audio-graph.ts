import type { Voice } from '../phrase/model/voice';
import {
  CLICK_SOUNDS,
  velocityGain,
  type ClickSound,
  type CountWord,
  type SoundEvent,
} from './sound-event';
import type { QueuedSound } from './sound-output';
import { clickSamples } from './synth/clicks';
import { countWordSound } from './synth/count-words';
import { voiceSamples } from './synth/voices';
import { Context, Gain, setContext } from './tone-parts';

/** Everything that hangs on one native audio context. A context that stands still is thrown away whole. */
export interface AudioGraph {
  readonly native: AudioContext;
  setVolume(volume: number): void;
  /** A new way in to the master volume; disconnecting it silences what went through it. */
  openBus(): AudioBus;
  /** Loudest sample of about the last half second, before the volume; 0 for none. */
  readonly recentPeak: () => number;
  /** Makes the samples of these voices and words now, so that the first of them waits for nothing. */
  prepare(voices: readonly Voice[], words?: readonly CountWord[]): void;
  close(): void;
}

export interface AudioBus {
  /** At once when no time is given. */
  play(event: SoundEvent, atSeconds?: number): QueuedSound;
  close(): void;
}

/** What sounds, and how long before its time it begins. */
interface SoundBuffer {
  readonly buffer: AudioBuffer;
  readonly aheadSeconds: number;
}

/** The analyser looks back over as many samples: 0.68 s at 48 kHz. */
const LOOK_BACK_SAMPLES = 32_768;

/**
 * Tone's context and gains on a native AudioContext, which still tells its latency. Each sound is a
 * bare buffer source of that context: a source object of Tone's costs some ten times as much to make.
 */
export function createAudioGraph(native: AudioContext, volume: number): AudioGraph {
  const context = new Context({ context: native, clockSource: 'timeout' });
  setContext(context);
  const master = new Gain({ context, gain: volume });
  const analyser = native.createAnalyser();
  analyser.fftSize = LOOK_BACK_SAMPLES;
  analyser.connect(master.input);
  master.connect(native.destination);

  const buffers = new Map<string, AudioBuffer>();
  const bufferOf = (key: string, samples: () => Float32Array) => {
    const made = buffers.get(key);
    if (made) return made;
    const data = samples();
    const buffer = native.createBuffer(1, data.length, native.sampleRate);
    buffer.getChannelData(0).set(data);
    buffers.set(key, buffer);
    return buffer;
  };
  const clickBuffer = (sound: ClickSound) =>
    bufferOf(`click ${sound}`, () => clickSamples(sound, native.sampleRate));
  const voiceBuffer = (voice: Voice) =>
    bufferOf(voice, () => voiceSamples(voice, native.sampleRate));
  const countBuffers = new Map<string, SoundBuffer>();
  const countBuffer = (word: CountWord, isShort: boolean): SoundBuffer => {
    const key = `count ${word}${isShort ? ', short' : ''}`;
    const known = countBuffers.get(key);
    if (known) return known;
    const { samples, beatSeconds } = countWordSound(word, isShort, native.sampleRate);
    const sound = { buffer: bufferOf(key, () => samples), aheadSeconds: beatSeconds };
    countBuffers.set(key, sound);
    return sound;
  };
  const soundOf = (event: SoundEvent): SoundBuffer => {
    if (event.kind === 'count') return countBuffer(event.word, event.isShort);
    const buffer = event.kind === 'click' ? clickBuffer(event.sound) : voiceBuffer(event.voice);
    return { buffer, aheadSeconds: 0 };
  };
  CLICK_SOUNDS.forEach(clickBuffer);

  return {
    native,
    setVolume: (next) => void master.gain.rampTo(next, 0.02),
    openBus() {
      const bus = new Gain({ context });
      bus.connect(analyser);
      return {
        play(event, atSeconds = context.immediate()) {
          const { buffer, aheadSeconds } = soundOf(event);
          const source = context.createBufferSource();
          const level = context.createGain();
          source.buffer = buffer;
          level.gain.value = velocityGain(event.velocity);
          source.connect(level);
          level.connect(bus.input);
          source.onended = () => level.disconnect();
          // On a whole sample, or the sound is interpolated between two and loses its edge.
          source.start(
            Math.max(0, Math.round((atSeconds - aheadSeconds) * native.sampleRate)) /
              native.sampleRate,
          );
          return { cancel: () => level.disconnect() };
        },
        close: () => void bus.dispose(),
      };
    },
    recentPeak() {
      const samples = new Float32Array(LOOK_BACK_SAMPLES);
      analyser.getFloatTimeDomainData(samples);
      return samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    },
    prepare(voices, words = []) {
      voices.forEach(voiceBuffer);
      for (const word of words) for (const isShort of [false, true]) countBuffer(word, isShort);
    },
    close: () => void context.dispose(),
  };
}
