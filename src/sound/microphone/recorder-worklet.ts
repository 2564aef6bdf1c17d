/** What the audio worklet's own scope has; the DOM types do not tell of it. */
declare const currentFrame: number;
declare function registerProcessor(name: string, processor: unknown): void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

/** Samples gathered before they are sent: a twelfth of a second at 48 kHz. */
const CHUNK = 4096;

/** One channel of what comes in, with the frame of the context at which each chunk begins. */
class Recorder extends AudioWorkletProcessor {
  readonly #chunk = new Float32Array(CHUNK);
  #filled = 0;
  #firstFrame = 0;

  process([input]: readonly (readonly Float32Array[])[]): boolean {
    const samples = input?.[0];
    if (!samples) return true;
    if (this.#filled === 0) this.#firstFrame = currentFrame;
    this.#chunk.set(samples, this.#filled);
    this.#filled += samples.length;
    if (this.#filled + samples.length > CHUNK) this.#send();
    return true;
  }

  #send(): void {
    const samples = this.#chunk.slice(0, this.#filled);
    this.port.postMessage({ firstFrame: this.#firstFrame, samples }, [samples.buffer]);
    this.#filled = 0;
  }
}

registerProcessor('recorder', Recorder);

export {};
