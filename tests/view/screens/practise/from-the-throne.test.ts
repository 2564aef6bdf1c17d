import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { summaryOf } from '../../../../src/practice/takes/take-scoring';
import { beats } from '../../../../src/time/beats';
import { capitalsIn, MM_A_PIXEL } from '../../capitals';
import { mountShell } from '../../mount-shell';
import { sampleStats } from '../../sample-stats';
import { manyFindings } from '../../sample-takes';
import type { StubParts } from '../../stub-parts';

/** What decides the next action can be read at a glance with sticks in hand. Asked for, not measured. */
const LEAST_MM = 5;

const playing = (parts: StubParts) => {
  parts.session.choose({ layer: 3 });
  parts.session.status = 'playing';
  parts.session.stats = sampleStats();
};

/** What is decided on in a state, as the page marks it. */
const STATES: readonly {
  readonly name: string;
  readonly prepare: (parts: StubParts) => void;
  readonly parts: readonly string[];
}[] = [
  {
    name: 'before a take',
    prepare: () => undefined,
    parts: ['status', 'finding', 'advice', 'start', 'now'],
  },
  {
    name: 'a count-in',
    prepare: ({ session }) => void (session.status = 'counting in'),
    parts: ['status', 'finding', 'advice', 'start', 'now'],
  },
  { name: 'playing', prepare: playing, parts: ['status', 'finding', 'advice', 'gate', 'now'] },
  {
    name: 'a change to come',
    prepare: (parts) => {
      playing(parts);
      parts.session.choose({ layer: 4 });
      parts.session.upcoming = [
        { layer: 4, bar: 14, hasPickup: true, atUs: 4_000_000 },
        { bpm: 92, bar: 15, beat: beats(3), atUs: 5_000_000 },
      ];
    },
    parts: ['status', 'upcoming', 'next', 'finding', 'gate', 'now'],
  },
  {
    name: 'passed',
    prepare: (parts) => {
      playing(parts);
      parts.session.justPassed = 3;
      parts.session.passed = [{ layer: 3, bpm: 96 }];
    },
    parts: ['status', 'passed', 'next-layer', 'ask-to-move-on', 'gate', 'now'],
  },
  {
    name: 'slipped',
    prepare: (parts) => {
      playing(parts);
      parts.session.placeHelp = {
        sentence: 'Slipped one sixteenth late since bar 9.',
        isOffered: true,
        waitForMe: () => undefined,
        bringMeBack: () => undefined,
      };
    },
    parts: ['status', 'slip', 'gate', 'now'],
  },
  {
    name: 'slipped, and answered',
    prepare: (parts) => {
      playing(parts);
      parts.session.upcoming = [{ countInBars: 1, bar: 9, atUs: 0 }];
      parts.session.placeHelp = {
        sentence: 'Slipped one sixteenth late since bar 9.',
        isOffered: false,
        waitForMe: () => undefined,
        bringMeBack: () => undefined,
      };
    },
    parts: ['status', 'slip', 'slip-answer', 'upcoming', 'now'],
  },
  {
    name: 'stopped',
    prepare: ({ session }) => {
      session.choose({ layer: 3 });
      session.stats = sampleStats();
      session.lastTake = { id: 'last', ...summaryOf(manyFindings(session.entry!))! };
    },
    parts: ['status', 'finding', 'advice', 'gate', 'start', 'now'],
  },
  {
    name: 'waiting for a kit',
    prepare: ({ inputs }) => void (inputs.port.kind = 'ask'),
    parts: ['status', 'finding', 'advice', 'start'],
  },
];

const SELECTORS: Readonly<Record<string, string>> = {
  now: '[aria-label=Layers] .now',
  next: '[aria-label=Layers] b.state',
};

async function tooSmall(parts: readonly string[], leastMm: number): Promise<string[]> {
  const found: string[] = [];
  for (const part of parts) {
    const selector = SELECTORS[part] ?? `[data-testid=${part}]`;
    await expect
      .poll(() => document.querySelector(selector), { message: part, timeout: 10_000 })
      .not.toBeNull();
    const texts = await capitalsIn(document.querySelector(selector)!);
    expect(texts, part).not.toEqual([]);
    for (const { text, mm } of texts)
      if (mm < leastMm) found.push(`${part}: “${text}” ${mm.toFixed(2)} mm`);
  }
  return found;
}

beforeEach(() => page.viewport(1920, 1080));
afterEach(() => page.viewport(1024, 768));

describe('on 24 inches of 1920 × 1080', () => {
  it('a pixel has 0.277 mm', () => {
    expect(MM_A_PIXEL).toBeCloseTo(0.2767, 4);
  });

  it.each(STATES)('what decides the next action has capitals of 5 mm: $name', async (state) => {
    await mountShell('#practise', state.prepare);
    expect(await tooSmall(state.parts, LEAST_MM)).toEqual([]);
  });

  it('small print is told', async () => {
    await mountShell('#practise');
    await expect.element(page.getByTestId('rig-line')).toBeVisible();
    expect(await tooSmall(['rig-line'], LEAST_MM)).not.toEqual([]);
  });
});
