import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { page, server } from 'vitest/browser';
import { cleanup, render } from 'vitest-browser-svelte';
import { GLYPH } from '../../../src/notation/notehead';
import { layerScore } from '../../../src/notation/score/layer-score';
import { engraveSheet } from '../../../src/notation/sheet/engrave-sheet';
import { glyphOutlines } from '../../../src/notation/sheet/sheet-file';
import Lane from '../../../src/view/lane/Lane.svelte';
import ScoreLine from '../../../src/view/score/ScoreLine.svelte';
import { loadLaneFonts, NOTATION_FAMILY } from '../../../src/view/theme/notation-font';
import '../../../src/view/theme/theme.css';
import { A4_AT_A_DESK } from '../../notation/a4-at-a-desk';
import { ferryFeed } from '../demo-feed';
import { sheetSvg } from '../sheet/sheet-svg';
import { BRACKETS, FLAMS, HEADS, TUPLETS } from './small-phrases';

// Small pictures of what everything else is drawn with; each was looked at before it was kept. Where a change is meant,
// they are made anew by `npx vitest run --project components tests/view/reference-pictures --update`.

/** A whole line of the sheet is so wide, in dots: one bar fills a part of it. */
const SHEETS = {
  heads: { phrase: HEADS, bars: 1, lineWidth: 1500 },
  flams: { phrase: FLAMS, bars: 1, lineWidth: 1500 },
  tuplets: { phrase: TUPLETS, bars: 1, lineWidth: 1500 },
  brackets: { phrase: BRACKETS, bars: 2, lineWidth: 900 },
} as const;
type SheetName = keyof typeof SHEETS;

let engraver: VerovioToolkit;
let frame: HTMLElement;

beforeAll(async () => {
  const module = await createVerovioModule();
  enableLog(LOG_OFF, module);
  engraver = new VerovioToolkit(module);
  await loadLaneFonts();
});
beforeEach(async () => {
  // The page is shown smaller than it is where it is larger than this.
  await page.viewport(1000, 600);
  document.documentElement.dataset['theme'] = 'light';
  frame = document.createElement('div');
  frame.dataset['testid'] = 'frame';
  frame.style.cssText =
    'position: fixed; inset: 0 auto auto 0; z-index: 9; width: 900px; height: 330px; overflow: hidden; background: var(--paper)';
  document.body.append(frame);
});
afterEach(() => {
  cleanup();
  frame.remove();
  delete document.documentElement.dataset['theme'];
});

const isAsKept = (name: string) =>
  expect.element(page.getByTestId('frame')).toMatchScreenshot(name);

/** The first line of the last layer. */
function drawSheet(name: SheetName): SVGSVGElement {
  const { phrase, bars, lineWidth } = SHEETS[name];
  const picture = engraveSheet(
    engraver,
    layerScore(phrase, phrase.layers.length, bars),
    A4_AT_A_DESK,
  );
  const { width, height, body } = picture.lines[0]!;
  const line = sheetSvg(`0 0 ${width} ${height}`, body);
  line.setAttribute('width', `${lineWidth}`);
  frame.style.fontFamily = 'var(--font-text)';
  frame.append(sheetSvg('0 0 1 1', `<defs>${glyphOutlines([picture])}</defs>`), line);
  frame.firstElementChild!.setAttribute('height', '0');
  return line;
}

describe('on paper', () => {
  it.each(Object.keys(SHEETS) as SheetName[])('%s', async (name) => {
    drawSheet(name);
    await isAsKept(`sheet-${name}`);
  });
});

describe('on the screen', () => {
  it('glyphs', async () => {
    frame.style.font = `48px/2 "${NOTATION_FAMILY}"`;
    for (const glyph of Object.values(GLYPH)) {
      const one = document.createElement('span');
      one.style.cssText = 'display: inline-block; width: 60px; text-align: center';
      one.textContent = glyph;
      frame.append(one);
    }
    await isAsKept('glyphs');
  });

  it('the score line', async () => {
    const none = new Set<string>();
    const { container } = await render(
      ScoreLine,
      { phrase: FLAMS, layer: FLAMS.layers.length, selected: none, changed: none },
      { baseElement: frame },
    );
    container.style.width = '880px';
    await isAsKept('score-line');
  });

  it.each(['light', 'dark'])('the lane, %s', async (theme) => {
    document.documentElement.dataset['theme'] = theme;
    await render(
      Lane,
      { feed: ferryFeed(), nowUs: () => 3_350_000, running: false, label: 'Lane' },
      { baseElement: frame },
    );
    await isAsKept(`lane-${theme}`);
  });
});

/** Where pictures are made anew, a planted fault would be taken for one. */
const areMadeAnew = server.config.snapshotOptions.updateSnapshot === 'all';

type Plant = (line: SVGSVGElement) => void;
const moved =
  (selector: string, x: number, y: number): Plant =>
  (line) =>
    line.querySelector(selector)!.setAttribute('transform', `translate(${x} ${y})`);
const without =
  (selector: string): Plant =>
  (line) =>
    line.querySelector(selector)!.remove();
const drawnAs =
  (selector: string, other: string): Plant =>
  (line) =>
    line.querySelector(selector)!.setAttribute('href', other);

describe.skipIf(areMadeAnew)('a planted fault is seen', () => {
  it.each<[string, SheetName, Plant]>([
    ['a flam behind its stroke', 'flams', moved('.graceGrp', 500, 0)],
    ['no flam', 'flams', without('.graceGrp')],
    ['a flam without its slash', 'flams', without('.graceGrp .stem path:last-child')],
    ['no accent', 'flams', without('.acc')],
    ['half a parenthesis', 'flams', without('.ghost .notehead use[href="#glyph-E26A"]')],
    ['an oval head for a cross', 'heads', drawnAs('.notehead use', '#glyph-E0A4')],
    ['a head half a space too high', 'heads', moved('.note', 0, -90)],
    ['no sign on an open hi-hat', 'heads', without('.open')],
    ['no sign on a closed one', 'heads', without('.stop')],
    ['no number of a tuplet', 'tuplets', without('text.tuplet')],
    ['a count under the next stroke', 'tuplets', moved('text.count', 600, 0)],
    ['no rest', 'tuplets', without('.rest')],
    ['no bracket', 'brackets', without('.cycle-line')],
    ['four lines', 'tuplets', without('.staff > path')],
    ['no bar line', 'brackets', without('.barLine')],
    ['no beam', 'brackets', without('.beam polygon')],
  ])('%s', async (_, name, plant) => {
    plant(drawSheet(name));
    await expect(isAsKept(`sheet-${name}`)).rejects.toThrow(/dots have no like/);
  });
});
