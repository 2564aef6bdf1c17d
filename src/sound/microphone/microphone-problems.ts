/** Why a microphone cannot be listened to; each with what to do. */
export const MICROPHONE_PROBLEMS = {
  unsupported:
    'This browser lets no page listen to a microphone here. Open the page by https or on this computer, in a current browser, or set the offset by hand.',
  denied:
    'The browser does not let this page listen to the microphone. Allow it in the site settings beside the address, then begin again; or set the offset by hand.',
  none: 'No microphone was found. Plug one in, or choose one in the settings of the system, then begin again.',
  busy: 'The microphone is there but gives no sound. Close other programs that use it, then begin again.',
  recorder:
    'The recorder of this page could not be started. Reload the page, or set the offset by hand.',
} as const;
export type MicrophoneProblem = keyof typeof MICROPHONE_PROBLEMS;

const OF_ERROR: Readonly<Record<string, MicrophoneProblem>> = {
  NotAllowedError: 'denied',
  SecurityError: 'denied',
  NotFoundError: 'none',
  OverconstrainedError: 'none',
  NotReadableError: 'busy',
  AbortError: 'busy',
};

/**
 * What an error of getUserMedia means: its names are those of W3C Media Capture and Streams.
 *
 * @example microphoneProblem(new DOMException('', 'NotFoundError')) // => 'none'
 */
export const microphoneProblem = (error: unknown): MicrophoneProblem =>
  (error instanceof DOMException ? OF_ERROR[error.name] : undefined) ?? 'unsupported';
