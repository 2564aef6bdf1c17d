import { bad, good, type Result } from '../../time/result';
import { microphoneProblem, problemOfError, type MicrophoneProblem } from './microphone-problems';
import recorderAddress from './recorder-worklet?worker&url';

/** What was recorded, on the clock of the audio context. */
export interface RecordedSound {
  readonly samples: Float32Array<ArrayBuffer>;
  readonly sampleRate: number;
  /** Audio time of the first sample, seconds. */
  readonly startSeconds: number;
}

export interface MicrophoneRecording {
  /** The browser went on to smooth or level the sound, though asked not to. */
  readonly isProcessed: boolean;
  /** Lets go of the microphone and hands over what was heard; undefined when nothing was. */
  stop(): RecordedSound | undefined;
}

interface Chunk {
  readonly firstFrame: number;
  readonly samples: Float32Array<ArrayBuffer>;
}

/** As it is: what makes speech clear moves or removes clicks. One channel. */
const AS_IT_IS = {
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
  channelCount: 1,
} as const;

/**
 * Records one channel of the microphone in the context's own frames, in memory alone. Call it from a
 * click, since the browser asks the player.
 */
export async function recordMicrophone(
  context: AudioContext,
  devices: Pick<MediaDevices, 'getUserMedia'> | null = navigator.mediaDevices ?? null,
): Promise<Result<MicrophoneRecording, MicrophoneProblem>> {
  if (!devices) return bad(microphoneProblem('UNSUPPORTED'));
  let stream: MediaStream;
  try {
    stream = await devices.getUserMedia({ audio: AS_IT_IS });
  } catch (error) {
    return bad(problemOfError(error));
  }
  const release = () => stream.getTracks().forEach((track) => track.stop());
  try {
    await context.audioWorklet.addModule(recorderAddress);
  } catch {
    release();
    return bad(microphoneProblem('RECORDER'));
  }
  const chunks: Chunk[] = [];
  const source = context.createMediaStreamSource(stream);
  const recorder = new AudioWorkletNode(context, 'recorder', { outputChannelCount: [1] });
  recorder.port.onmessage = ({ data }: MessageEvent<Chunk>) => void chunks.push(data);
  source.connect(recorder);
  // It puts out silence, and is only run because it leads to the output.
  recorder.connect(context.destination);
  const { echoCancellation, noiseSuppression, autoGainControl } =
    stream.getAudioTracks()[0]?.getSettings() ?? {};
  return good({
    isProcessed: [echoCancellation, noiseSuppression, autoGainControl].includes(true),
    stop() {
      source.disconnect();
      recorder.disconnect();
      recorder.port.close();
      release();
      return joined(chunks, context.sampleRate);
    },
  });
}

/** One stretch of sound; where the audio thread lost frames there is silence. */
function joined(chunks: readonly Chunk[], sampleRate: number): RecordedSound | undefined {
  const first = chunks[0]?.firstFrame;
  const last = chunks.at(-1);
  if (first === undefined || !last) return undefined;
  const samples = new Float32Array(last.firstFrame + last.samples.length - first);
  for (const chunk of chunks) samples.set(chunk.samples, chunk.firstFrame - first);
  return { samples, sampleRate, startSeconds: first / sampleRate };
}
