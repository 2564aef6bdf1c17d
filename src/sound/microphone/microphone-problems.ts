/** Why a microphone cannot be listened to; each with what to do. */
export const MICROPHONE_PROBLEMS = {
  UNSUPPORTED:
    'This browser lets no page listen to a microphone here. Open the page by https or on this computer, in a current browser, or set the offset by hand.',
  DENIED:
    'The browser does not let this page listen to the microphone. Allow it in the site settings beside the address, then begin again; or set the offset by hand.',
  NONE: 'No microphone was found. Plug one in, or choose one in the settings of the system, then begin again.',
  BUSY: 'The microphone is there but gives no sound. Close other programs that use it, then begin again.',
  RECORDER:
    'The recorder of this page could not be started. Reload the page, or set the offset by hand.',
} as const;

export interface MicrophoneProblem {
  readonly code: keyof typeof MICROPHONE_PROBLEMS;
  /** Why, and what to do. */
  readonly message: string;
}

/** @example microphoneProblem('BUSY').code // => 'BUSY' */
export const microphoneProblem = (code: MicrophoneProblem['code']): MicrophoneProblem => ({
  code,
  message: MICROPHONE_PROBLEMS[code],
});

const OF_ERROR: Readonly<Record<string, MicrophoneProblem['code']>> = {
  NotAllowedError: 'DENIED',
  SecurityError: 'DENIED',
  NotFoundError: 'NONE',
  OverconstrainedError: 'NONE',
  NotReadableError: 'BUSY',
  AbortError: 'BUSY',
};

/**
 * What an error of getUserMedia means: its names are those of W3C Media Capture and Streams.
 *
 * @example problemOfError(new DOMException('', 'NotFoundError')).code // => 'NONE'
 */
export const problemOfError = (error: unknown): MicrophoneProblem =>
  microphoneProblem(
    (error instanceof DOMException ? OF_ERROR[error.name] : undefined) ?? 'UNSUPPORTED',
  );
