/**
 * A sentence whose figures stay in one line with their units.
 *
 * @example unbroken('Left hand 20 ms late.') // => 'Left hand 20\u00a0ms late.'
 */
export const unbroken = (sentence: string): string =>
  sentence.replaceAll(/(\d) (?=(?:ms|dB|bars?|strokes?|of)\b)/g, '$1\u00a0');
