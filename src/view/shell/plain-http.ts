/** What a page gets that is no secure context, and what it does not (Secure Contexts, 3; each by its own standard). */
export const PLAIN_HTTP =
  'This page came over plain http, and browsers give such a page no MIDI, no microphone, no way to keep the screen on, and no promise to keep its data. Computer keyboard, pads on the screen, MIDI files and the simulated player work, and takes and phrases are kept. For an electronic kit open it over https, or at localhost on the computer that serves it.';
