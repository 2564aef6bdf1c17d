/**
 * The parts of Tone that sound here, taken file by file: the package's front door makes a second
 * AudioContext and a worker from a blob when it is loaded, which a strict content policy refuses.
 */
export { Context } from 'tone/build/esm/core/context/Context.js';
export { Gain } from 'tone/build/esm/core/context/Gain.js';
export { setContext } from 'tone/build/esm/core/context/GlobalContext.js';
