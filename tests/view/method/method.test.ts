import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { METHOD, METHOD_GROUPS, type MethodName } from '../../../src/view/method/method';
import { mountShell } from '../mount-shell';
import { sampleStats } from '../sample-stats';

/** The rooms in which a note gets its verdict, its level and its pass. */
const SOURCES = import.meta.glob<string>(
  [
    '../../../src/match/**/*.ts',
    '../../../src/score/**/*.ts',
    '../../../src/kit/pad-fault.ts',
    '../../../src/kit/velocity-runs.ts',
  ],
  { query: '?raw', import: 'default', eager: true },
);

/** Numbers there that decide no grade, and why. */
const NO_GRADE: Readonly<Record<string, string>> = {
  WEIGHT_WIDTH: 'how many numbers a comparison has',
  MAX_UNIT: 'room for exact sums',
  RIGHT_VOICE: 'room for exact sums',
  STROKE_RANKS: 'room for exact sums',
  NOTE_RANKS: 'room for exact sums',
  MOST_ALIKE: 'room for exact sums',
  MOST_CYCLES: 'how many cycles are told ahead',
  MOST_TERMS: 'when a sum has converged',
  SMALLEST: 'when a sum has converged',
  GENUINE: 'a name in numbers',
  DOUBLE_TRIGGER: 'a name in numbers',
  CROSSTALK: 'a name in numbers',
  COMMAND: 'a name in numbers',
  TOP: 'the highest velocity of MIDI',
};

/** Numbers at the top of a file by their names, as they are written there. */
function constantsIn(source: string): [string, number][] {
  const written = /^(?:export )?const ([A-Z][A-Z0-9_]+)(?:: [^=]+)? = ([^;]+);/gm;
  return [...source.matchAll(written)]
    .map(([, name, value]): [string, number] => [name!, valueOf(value!)])
    .filter(([, value]) => !Number.isNaN(value));
}

/** Of a number, a fraction or a power; NaN of anything else. */
function valueOf(text: string): number {
  const [, a, sign, b] = /^([\d._e-]+)(?: (\/|\*\*) ([\d._]+))?$/.exec(text) ?? [];
  const number = (digits = '') => Number(digits.replaceAll('_', '') || NaN);
  if (a === undefined) return NaN;
  return sign === '/' ? number(a) / number(b) : sign ? number(a) ** number(b) : number(a);
}

const entries = Object.values(METHOD);
const codes = entries.flatMap(({ numbers }) => numbers.map(({ code }) => code));

describe('the methods', () => {
  it('hold every number that decides a verdict, a level or a pass', () => {
    const inCode = Object.values(SOURCES).flatMap(constantsIn);
    expect(inCode.length).toBeGreaterThan(30);
    expect(inCode.map(([name]) => name)).toContain('DEFAULT_TOLERANCE_MS');
    const missing = inCode.filter(([name]) => !codes.includes(name) && !NO_GRADE[name]);
    expect(missing).toEqual([]);
  });

  it('leave out nothing that is not there any more, nor what is on the page', () => {
    const names = Object.values(SOURCES)
      .flatMap(constantsIn)
      .map(([name]) => name);
    for (const name of Object.keys(NO_GRADE))
      expect([name, names.includes(name)]).toEqual([name, true]);
    expect(Object.keys(NO_GRADE).filter((name) => codes.includes(name))).toEqual([]);
  });

  it('say of each what it is, how it is worked out and from where, once', () => {
    const grouped = METHOD_GROUPS.flatMap(([, names]) => names);
    expect(grouped.toSorted()).toEqual((Object.keys(METHOD) as MethodName[]).toSorted());
    for (const { name, what, how, numbers, source } of entries) {
      expect([name, what.length > 20, how.length > 0, source.length > 10]).toEqual([
        name,
        true,
        true,
        true,
      ]);
      for (const { value, says, from } of numbers)
        expect([/\d/.test(value), says.length > 5, from.length > 5]).toEqual([true, true, true]);
    }
    expect(new Set(codes).size).toBe(codes.length);
  });

  it('give the numbers with their units, as the code has them', () => {
    const textOf = (wanted: string) =>
      entries.flatMap(({ numbers }) => numbers).find(({ code }) => code === wanted)?.value;
    expect(
      [
        'DEFAULT_TOLERANCE_MS',
        'TOLERANCE_OF_PARTIAL',
        'MAX_REACH_US',
        'GATE_THRESHOLD',
        'ghostMax',
      ].map(textOf),
    ).toEqual(['35 ms', '33.33 %', '500 ms', '85 %', '50']);
  });
});

describe('the page of methods', () => {
  it('shows all of them with their numbers', async () => {
    await mountShell('#help/methods');
    await expect.element(page.getByRole('heading', { level: 1, name: 'Methods' })).toBeVisible();
    expect(page.getByTestId('method').elements()).toHaveLength(entries.length);
    const shown = [...document.querySelectorAll<HTMLElement>('[data-code]')];
    expect(shown.map(({ dataset }) => dataset['code']).toSorted()).toEqual(codes.toSorted());
    await page.getByRole('main').getByRole('link', { name: 'Help' }).click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Help' })).toBeVisible();
  });
});

describe('a figure', () => {
  const note = page.getByTestId('method-note');
  const playing = () =>
    mountShell('#practise', ({ session }) => {
      session.stats = sampleStats();
      session.status = 'playing';
    });

  it('tells by the keyboard what it is and how it is worked out; its keys are not the page’s', async () => {
    const { session } = await playing();
    const term = page
      .getByRole('region', { name: 'The last cycle' })
      .getByRole('button', { name: /^spread/ });
    (term.element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    await expect.element(note).toHaveTextContent(METHOD.spread.what);
    await expect.element(note).toHaveTextContent(METHOD.spread.how[0]!);
    await userEvent.keyboard('{Escape}');
    await expect.element(note).not.toBeInTheDocument();
    await expect.element(term).toHaveFocus();
    expect(session.status).toBe('playing');
  });

  it('is pressed wherever it is struck, and leads to all methods', async () => {
    const { route } = await playing();
    const contrast = page.getByTestId('figure-contrast');
    // On a phone the stop button lies over the foot of the page.
    contrast.element().scrollIntoView({ block: 'center' });
    await contrast.click({ force: true });
    await expect.element(note).toHaveTextContent(METHOD.contrast.what);
    await note.getByRole('link', { name: 'All methods' }).click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Methods' })).toBeVisible();
    expect(route.current).toEqual({ screen: 'help', id: 'methods' });
    await expect.element(note).not.toBeInTheDocument();
  });
});
