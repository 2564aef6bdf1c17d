import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { VOICES } from '../../../../src/phrase/model/voice';
import { summaryOf } from '../../../../src/practice/takes/take-scoring';
import { beats } from '../../../../src/time/beats';
import { laneChoices } from '../../../../src/view/screens/practise/lane-choices';
import { capitalsIn, LEAST_MM_FROM_1500, MM_A_PIXEL } from '../../capitals';
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
      .poll(() => document.querySelector(selector), { message: part, timeout: 30_000 })
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

  it.each(STATES)(
    'all that stands on the view from the throne is read at 1.5 m: $name',
    async (state) => {
      await mountShell('#practise', (parts) => {
        state.prepare(parts);
        parts.session.choose({ fromThrone: true });
      });
      await expect.element(page.getByTestId('throne')).toBeVisible();
      expect(await tooSmall(['throne'], LEAST_MM_FROM_1500)).toEqual([]);
      expect(page.getByRole('navigation').query()).toBeNull();
      for (const part of [
        'status',
        'finding',
        'figure-as-written',
        'figure-offset',
        'figure-contrast',
      ])
        await expect.element(page.getByTestId(part)).toBeInTheDocument();
      const height = document.documentElement.scrollHeight;
      expect(height, 'all of it is in sight').toBeLessThanOrEqual(1080);
    },
  );

  it('small print is told', async () => {
    await mountShell('#practise');
    await expect.element(page.getByTestId('rig-line')).toBeVisible();
    expect(await tooSmall(['rig-line'], LEAST_MM)).not.toEqual([]);
  });
});

describe('the view from the throne', () => {
  it('comes and goes by key and by button, and is there again another day', async () => {
    const { session } = await mountShell('#practise');
    await expect.element(page.getByTestId('rig-line')).toBeVisible();
    await userEvent.keyboard('v');
    await expect.element(page.getByTestId('throne')).toBeVisible();
    expect(session.choices.fromThrone).toBe(true);
    await userEvent.keyboard('v');
    await expect.element(page.getByRole('navigation')).toBeVisible();
    await page.getByRole('button', { name: 'From the throne', exact: true }).click();
    await expect.element(page.getByTestId('throne')).toBeVisible();
    await page.getByRole('button', { name: 'From nearby' }).click();
    expect(page.getByTestId('throne').query()).toBeNull();
  });

  it.each([
    [1440, 900],
    [1024, 640],
    [390, 844],
  ])('leaves what is said to be read beside a command: %i by %i', async (width, height) => {
    await page.viewport(width, height);
    await mountShell('#practise', playing);
    await expect.element(page.getByTestId('gate')).toBeVisible();
    await userEvent.keyboard('v');
    const shown = page.getByTestId('command-shown').getByText('From the throne');
    await expect.element(shown).toBeVisible();
    await expect.element(page.getByTestId('throne')).toBeVisible();
    const { top, bottom } = shown.element().getBoundingClientRect();
    expect(bottom).toBeLessThanOrEqual(height);
    for (const part of ['status', 'start', 'finding', 'advice']) {
      const box = page.getByTestId(part).element().getBoundingClientRect();
      expect(box.bottom, part).toBeLessThanOrEqual(top);
    }
    // Back at the desk nothing is said at the head but the phrase's name.
    await userEvent.keyboard('v');
    const back = page.getByTestId('command-shown').getByText('From nearby');
    await expect.element(back).toBeVisible();
    const said = page.getByTestId('finding').element().getBoundingClientRect();
    expect(said.top).toBeGreaterThanOrEqual(back.element().getBoundingClientRect().bottom);
  });

  it('tells why the tempo is what it is, or how far off the click’s return was', async () => {
    const { session } = await mountShell('#practise', (parts) => {
      playing(parts);
      parts.session.choose({ fromThrone: true });
      const plan = { tempi: [88, 92], cycles: 5, backAfter: 1 };
      const reason = { kind: 'back', clean: 2, of: 4 } as const;
      parts.session.plan = { plan, state: { step: 0, cycles: 0, clean: 0, fails: 0, reason } };
    });
    const reason = page.getByTestId('plan-reason');
    await expect.element(reason).toHaveTextContent('Back to 88: two of four cycles passed.');
    session.plan = undefined;
    const returned = { fromBar: 5, toBar: 6, beats: 8, errorMs: -24, chanceMs: 28, notes: [] };
    session.stats = { ...sampleStats(), returns: [returned] };
    await expect
      .element(page.getByTestId('return'))
      .toHaveTextContent('Click back at bar 7: 24 ms early; chance alone reaches 56.');
  });

  it('is of Practise alone', async () => {
    await mountShell('#phrases', ({ session }) => session.choose({ fromThrone: true }));
    await expect.element(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  });

  it('tells a lost place before all, then a pass, with the keys there are', async () => {
    const { session } = await mountShell('#practise', (parts) => {
      playing(parts);
      parts.session.choose({ fromThrone: true });
      parts.session.justPassed = 3;
    });
    const said = page.getByTestId('finding');
    const advice = page.getByTestId('advice');
    await expect.element(said).toHaveTextContent('Passed: Toms.');
    await expect.element(advice).toHaveTextContent('.: next layer · +: faster');
    session.placeHelp = {
      sentence: 'Slipped one sixteenth late since bar 9.',
      isOffered: true,
      waitForMe: () => undefined,
      bringMeBack: () => undefined,
    };
    await expect.element(said).toHaveTextContent('Slipped one sixteenth late since bar 9.');
    await expect.element(advice).toHaveTextContent('1: wait for me · 2: bring me back');
    session.placeHelp = { ...session.placeHelp, isOffered: false };
    session.upcoming = [{ countInBars: 1, bar: 9, atUs: 0 }];
    await expect.element(advice).toHaveTextContent('A count-in at bar 9');
  });

  it('leaves the lane where it is, whatever is said', async () => {
    await page.viewport(1440, 900);
    const { session } = await mountShell('#practise', ({ session }) =>
      session.choose({ fromThrone: true }),
    );
    const lane = page.getByRole('img', { name: /^Lane/ });
    await expect.element(lane).toBeVisible();
    const place = () => {
      const { top, height } = lane.element().getBoundingClientRect();
      return [Math.round(top), Math.round(height)];
    };
    const atRest = lane.element().getBoundingClientRect().top;
    session.status = 'playing';
    await expect.element(page.getByRole('button', { name: 'Stop' })).toBeVisible();
    expect(lane.element().getBoundingClientRect().top).toBe(atRest);
    const before = place();
    session.stats = sampleStats();
    session.upcoming = [{ layer: 3, bar: 14, hasPickup: true, atUs: 4_000_000 }];
    await expect.element(page.getByTestId('upcoming')).toHaveTextContent('bar 14');
    expect(place()).toEqual(before);
  });
});

describe('the lane as the player wants it', () => {
  it('shows so many seconds, and rows from the start', async () => {
    const { session } = await mountShell('#practise');
    await expect.element(page.getByTestId('settings')).toBeInTheDocument();
    page.getByTestId('settings').element().querySelector('summary')!.click();
    await page.getByTestId('lane-seconds').selectOptions('4 seconds');
    expect(session.choices.laneSeconds).toBe(4);
    expect(laneChoices(session)).toEqual({ still: false, spanSeconds: 4, rows: '' });
    await page.getByTestId('lane-rows').selectOptions('all of the phrase');
    const rows = laneChoices(session)
      .rows.split(' ')
      .map((number) => VOICES[Number(number)]);
    expect(rows).toEqual(['high tom', 'snare', 'floor tom', 'bass drum']);
    await page.getByTestId('lane-seconds').selectOptions('as the notes need it');
    expect(session.choices.laneSeconds).toBeUndefined();
  });
});
