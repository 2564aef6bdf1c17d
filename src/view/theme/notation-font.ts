import musicFontUrl from '@vexflow-fonts/leland/leland.woff2?url';

/** Family under which the SMuFL music font of this app is registered. */
export const NOTATION_FAMILY = 'Lane Notation';

let loading: Promise<void> | undefined;

/**
 * Registers the music font and waits until it and the text face can be drawn on a canvas; a canvas
 * does not wait by itself, it draws empty boxes. Served from our own origin, nothing else is fetched.
 */
export function loadLaneFonts(): Promise<void> {
  loading ??= load();
  return loading;
}

async function load(): Promise<void> {
  const music = new FontFace(NOTATION_FAMILY, `url("${musicFontUrl}") format("woff2")`);
  document.fonts.add(music);
  await Promise.allSettled([
    music.load(),
    document.fonts.load('600 16px "Source Sans 3 Variable"'),
    document.fonts.load('600 16px "Source Serif 4 Variable"'),
  ]);
}
