/** The screens of the navigation in their order; help stands apart. */
export const MAIN_SCREENS = ['practise', 'phrases', 'kit', 'log', 'help'] as const;
/** Those, and the ones that are reached from the phrases. */
export const SCREENS = [...MAIN_SCREENS, 'compose', 'vary', 'capture', 'sheet', 'open'] as const;
/** Those, and what an address shows that leads nowhere. */
export type Screen = (typeof SCREENS)[number] | 'unknown';

/** The screen of the navigation that a screen belongs to. @example mainScreenOf('compose') // => 'phrases' */
export const mainScreenOf = (screen: Screen): (typeof MAIN_SCREENS)[number] | undefined =>
  screen === 'unknown' ? undefined : (MAIN_SCREENS.find((main) => main === screen) ?? 'phrases');

/** The pages behind the kit screen, as a route's id. */
export const WHAT_IT_SENDS = 'what-it-sends';
export const OFFSET_OF_RIG = 'offset';
export const FIRST_START = 'first-start';

/** And behind the log, beside its takes. */
export const KEEPING = 'what-is-kept';

/** And behind Help. */
export const METHODS = 'methods';
export const CHAPTER_IDS = [
  'first-ten-minutes',
  'reading-the-lane',
  'reading-the-figures',
  'what-passing-means',
  'the-offset',
  'kit-troubles',
  'writing-a-phrase',
] as const;
export type ChapterId = (typeof CHAPTER_IDS)[number];

/** Screens that open nothing by an id, or only these pages. */
const PAGES: Readonly<Partial<Record<string, readonly string[]>>> = {
  practise: [],
  kit: [WHAT_IT_SENDS, OFFSET_OF_RIG, FIRST_START],
  help: [METHODS, ...CHAPTER_IDS],
  capture: [],
};

export interface Route {
  readonly screen: Screen;
  /** The phrase, take or page that is opened; of `open` what a link carries; of an unknown address all of it. */
  readonly id: string | undefined;
}

export const SCREEN_NAMES: Readonly<Record<Screen, string>> = {
  practise: 'Practise',
  phrases: 'Phrases',
  kit: 'Kit',
  log: 'Log',
  help: 'Help',
  compose: 'Compose',
  vary: 'Vary',
  capture: 'Capture',
  open: 'Open a file',
  sheet: 'Sheet',
  unknown: 'Nothing here',
};

/**
 * The route an address points to; an empty one is the practise screen.
 *
 * @example routeOf('#log/12%2F3') // => { screen: 'log', id: '12/3' }
 */
export function routeOf(hash: string): Route {
  const address = hash.replace(/^#\/?/, '');
  if (address === '') return { screen: 'practise', id: undefined };
  const [name, written] = address.split('/');
  const screen = SCREENS.find((known) => known === name);
  const id = written === undefined || written === '' ? undefined : decoded(written);
  if (screen === undefined || (id !== undefined && PAGES[screen]?.includes(id) === false))
    return { screen: 'unknown', id: decoded(address) };
  return { screen, id };
}

/** @example hashOf('log', '12/3') // => '#log/12%2F3' */
export const hashOf = (screen: Screen, id?: string): string =>
  id === undefined ? `#${screen}` : `#${screen}/${encodeURIComponent(id)}`;

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
