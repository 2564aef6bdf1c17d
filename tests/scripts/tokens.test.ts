import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const VIEW = 'src/view';
/** Where the tokens are, and where paper is white and ink black whatever the theme. */
const TOKEN_FILES = ['theme/tokens.css', 'theme/print.css', 'theme/palette.ts'];

const files = readdirSync(VIEW, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(svelte|css|ts)$/.test(name) && !TOKEN_FILES.includes(name))
  .map((name) => ({ name, text: readFileSync(`${VIEW}/${name}`, 'utf8') }));

/** What is written in a style sheet or a component's styles, without comments. */
const stylesOf = ({ name, text }: (typeof files)[number]): string =>
  (name.endsWith('.css') ? text : (/<style>([\s\S]*)<\/style>/.exec(text)?.[1] ?? '')).replace(
    /\/\*[\s\S]*?\*\//g,
    '',
  );

/** Its declarations, properties of its own too; a value may go over lines. */
const declarationsIn = (styles: string) =>
  [...styles.matchAll(/(?<=[{;]\s*)([a-z-]+):\s*([^;{}]+);/g)].map(([, property, value]) => ({
    property: property!,
    value: value!.replace(/\s+/g, ' '),
  }));

const SPACE =
  /^(margin|padding|gap|row-gap|column-gap|inset|top|right|bottom|left|scroll-margin|scroll-padding)(-|$)/;
/** Lengths that follow neither a token nor the size of the type beside them; millimetres are a printer's. */
const RAW_LENGTH = /(?<![\w.-])\d*\.?\d+(px|rem|vw|vh)\b/;
const MOTION = /^(transition|animation)/;
const RAW_COLOUR = /#[0-9a-f]{3,8}\b|\b(rgba?|hsla?|oklch|oklab|lab|lch|hwb)\(/i;
const NAMED_COLOUR =
  /(?<![\w-])(white|black|grey|gray|red|green|blue|orange|yellow|purple|brown)(?![\w-])/i;

const isRawSpace = ({ property, value }: Declaration) =>
  SPACE.test(property) && RAW_LENGTH.test(value);
const isRawMotion = ({ property, value }: Declaration) =>
  MOTION.test(property) && !/^none\b/.test(value) && /\d/.test(value);
const isRawColour = ({ property, value }: Declaration) =>
  /color|background|border|outline|shadow|fill|stroke|^--/.test(property) &&
  (RAW_COLOUR.test(value) || NAMED_COLOUR.test(value));
type Declaration = ReturnType<typeof declarationsIn>[number];

/** A code for a camera is black on white in every theme. */
const FOR_A_CAMERA = 'hand-out/CodePicture.svelte';

const rawIn = (isRaw: (one: Declaration) => boolean) =>
  files.flatMap((file) =>
    declarationsIn(stylesOf(file))
      .filter(isRaw)
      .map(({ property, value }) => `${file.name}: ${property}: ${value}`),
  );

describe('what is laid out, coloured and moved goes by the tokens', () => {
  it('in its spaces', () => {
    expect(rawIn(isRawSpace)).toEqual([]);
  });

  it('in its colours, those that scripts draw with too', () => {
    expect(rawIn(isRawColour).filter((one) => !one.startsWith(FOR_A_CAMERA))).toEqual([]);
    const drawn = files
      .filter(({ name }) => !name.endsWith('.css'))
      .flatMap(({ name, text }) =>
        [...text.matchAll(/(['"`])(#[0-9a-f]{3,8}|(?:rgb|hsl)a?\([^)]*\))\1/gi)].map(
          ([, , colour]) => `${name}: ${colour}`,
        ),
      );
    expect(drawn).toEqual([]);
  });

  it('in its motion, of which there is none', () => {
    expect(rawIn(isRawMotion)).toEqual([]);
    expect(files.filter((file) => /@keyframes/.test(stylesOf(file)))).toEqual([]);
  });

  it.each([
    ['a { margin: 3px; }', isRawSpace, 1],
    ['a { margin: 0 auto; padding-inline-start: 1.4em; gap: var(--space-3); }', isRawSpace, 0],
    ['a { padding: calc(var(--space-3) - 3px) 0; }', isRawSpace, 1],
    ['a { inset: auto 0 7.5rem; top: 2px; margin: 15mm; }', isRawSpace, 2],
    ['a { gap: clamp(1rem, 1.4vw, 2rem); }', isRawSpace, 1],
    ['a { color: #123; b { border-color: rgb(1 2 3); } }', isRawColour, 2],
    ['a { background: white; white-space: nowrap; }', isRawColour, 1],
    ['a { --shade: hsl(0 0% 0%); color: var(--ink); }', isRawColour, 1],
    ['a { transition: color 0.2s; animation: none !important; }', isRawMotion, 1],
    ['a { transition: color var(--quick); }', isRawMotion, 0],
  ] as const)('%s is told', (styles, isRaw, count) => {
    expect(declarationsIn(styles).filter(isRaw)).toHaveLength(count);
  });
});
