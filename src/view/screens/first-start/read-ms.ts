/**
 * What is struck sooner than this after a sentence appeared, or after another stroke, is no answer to it, ms. Chosen, not
 * measured: more than from click to click, so that whoever plays on once the click has stopped answers nothing.
 */
export const READ_MS = 900;
