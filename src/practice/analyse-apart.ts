import type { HeardOutcome, MicrophoneEvidence } from './microphone-analysis';

/** Analyses a recording on a thread of its own, which ends with its answer. Rejects if that thread fails. */
export async function analyseApart(evidence: MicrophoneEvidence): Promise<HeardOutcome> {
  const worker = new Worker(new URL('./microphone-worker.ts', import.meta.url), { type: 'module' });
  try {
    return await new Promise<HeardOutcome>((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<HeardOutcome>) => resolve(data);
      worker.onerror = ({ message }) => reject(new Error(message));
      worker.postMessage(evidence, [evidence.recorded.samples.buffer]);
    });
  } finally {
    worker.terminate();
  }
}
