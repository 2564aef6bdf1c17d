/** The colours a canvas needs, as the browser resolved them. Names are the custom properties without `--`. */
const NAMES = {
  paper: '--paper',
  ink: '--ink',
  inkSoft: '--ink-soft',
  early: '--early',
  late: '--late',
  row: '--lane-row',
  beat: '--lane-beat',
  bar: '--lane-bar',
  window: '--lane-window',
  tolerance: '--lane-tolerance',
  spent: '--lane-spent',
} as const;

/** What ink is printed on, whatever the screen's paper is like. */
export const WHITE_PAPER = '#fff';

export type Palette = Readonly<Record<keyof typeof NAMES, string>>;

/**
 * Reads the theme's colours at one element. They go through a probe's `color`, since a custom
 * property alone gives back its text, `light-dark()` and all.
 */
export function readPalette(host: HTMLElement): Palette {
  const probe = document.createElement('span');
  probe.hidden = true;
  probe.style.setProperty('forced-color-adjust', 'none');
  host.append(probe);
  const resolved = getComputedStyle(probe);
  const palette = {} as Record<keyof typeof NAMES, string>;
  for (const [name, property] of Object.entries(NAMES)) {
    probe.style.color = `var(${property})`;
    palette[name as keyof typeof NAMES] = resolved.color;
  }
  probe.remove();
  return palette;
}

/** Calls back whenever the theme may have changed; gives back the function that stops it. */
export function onThemeChange(changed: () => void): () => void {
  const root = new MutationObserver(changed);
  root.observe(document.documentElement, { attributeFilter: ['data-theme', 'class', 'style'] });
  const queries = ['(prefers-color-scheme: dark)', '(forced-colors: active)'].map((q) =>
    matchMedia(q),
  );
  for (const query of queries) query.addEventListener('change', changed);
  return () => {
    root.disconnect();
    for (const query of queries) query.removeEventListener('change', changed);
  };
}
