import { afterEach, describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { planWords, type PlanReason, type TempoPlan } from '../../../../src/coach/tempo-plan';
import { wording, type FindingCode } from '../../../../src/coach/wording';
import { SAMPLES } from '../../../coach/longest-sentences';
import { mountShell } from '../../mount-shell';
import { sampleStats } from '../../sample-stats';

const text = (testid: string) => page.getByTestId(testid);
const found = (testid: string) => text(testid).element();
const lane = () => page.getByRole('img', { name: /^Lane/ }).element();
const boxOf = (element: Element) => element.getBoundingClientRect();

/** All that the coach can say, each at its longest. */
const SENTENCES = Object.entries(SAMPLES).map(([code, facts]) =>
  wording(code as FindingCode, facts as never),
);
const LONGEST = SENTENCES.toSorted(
  (a, b) => b.text.length + b.advice.length - a.text.length - a.advice.length,
)[0]!;

const PLAN: TempoPlan = { tempi: [100, 104, 108, 112], cycles: 12, backAfter: 2 };
const REASONS: readonly PlanReason[] = [
  { kind: 'begins' },
  { kind: 'on' },
  { kind: 'reached' },
  { kind: 'back', clean: 7, of: 12 },
  { kind: 'stays', clean: 11, of: 12 },
  { kind: 'stays at start', clean: 11, of: 12 },
];

/** Seen: above the bar, under what is seen above it, and with nothing over it. */
function expectSeen(...elements: readonly Element[]): void {
  const bar = boxOf(found('bar'));
  let above = 0;
  for (const element of [document.querySelector('h1')!, lane(), ...elements]) {
    const box = boxOf(element);
    const name = `${element.tagName} ${element.textContent}`.slice(0, 60);
    expect(box.height, name).toBeGreaterThan(10);
    expect(box.top, name).toBeGreaterThanOrEqual(above);
    expect(box.bottom, name).toBeLessThanOrEqual(bar.top);
    for (const share of [0.25, 0.75]) {
      const x = box.left + Math.min(box.width / 2, 40);
      const over = document.elementFromPoint(x, box.top + share * box.height);
      expect(element.contains(over), `nothing over ${name}`).toBe(true);
    }
    // Buttons stand side by side, too.
    above = element instanceof HTMLButtonElement ? box.top : box.bottom - 1;
  }
}

describe('on a phone, above the bar at the foot', () => {
  afterEach(() => page.viewport(1440, 900));

  it.each([
    [390, 844],
    [360, 740],
    [320, 640],
    // Where the page is laid out otherwise from: each side.
    [390, 768],
    [390, 767],
    [412, 720],
    [412, 719],
  ])('stands all that is said and pressed while playing, at %i × %i', async (width, height) => {
    await page.viewport(width, height);
    const { session } = await mountShell('#practise', ({ library, session }) => {
      const [titled] = library.phrases.toSorted(
        (a, b) => b.phrase.title.length - a.phrase.title.length,
      );
      session.choosePhrase(titled!);
      session.choose({ layer: titled!.phrase.layers.length });
      session.stats = sampleStats();
      session.status = 'playing';
    });
    await expect.element(text('finding')).toBeVisible();
    await expect.element(page.getByRole('img', { name: /^Lane/ })).toBeVisible();
    expect(boxOf(found('bar')).bottom).toBe(height);
    const { top, height: laneHeight } = boxOf(lane());
    expect(laneHeight).toBeGreaterThanOrEqual(160);

    for (const { text: finding, advice } of SENTENCES) {
      session.stats = sampleStats({ finding, advice });
      await expect.element(text('advice')).toHaveTextContent(advice);
      expectSeen(found('finding'), found('advice'));
      expect(boxOf(lane())).toMatchObject({ top, height: laneHeight });
    }

    const { tempoPlan } = session.choices;
    session.stats = sampleStats({ finding: LONGEST.text, advice: LONGEST.advice });
    session.choose({ tempoPlan: { ...tempoPlan, shape: 'even' } });
    for (const reason of REASONS) {
      const state = { step: 1, cycles: 11, clean: 10, fails: 0, reason };
      session.plan = { plan: PLAN, state };
      await expect.element(text('plan-reason')).toHaveTextContent(planWords(PLAN, state));
      expectSeen(found('plan-reason'), found('finding'), found('advice'));
    }
    session.plan = undefined;
    session.choose({ tempoPlan });

    // Each layer passed, whatever its name and the next one's.
    for (let layer = 1; layer < session.phrase!.layers.length; layer++) {
      session.choose({ layer });
      session.justPassed = layer;
      await expect
        .element(text('passed'))
        .toHaveTextContent(session.phrase!.layers[layer - 1]!.name);
      expectSeen(
        ...['passed', 'next-layer', 'faster', 'again'].map(found),
        // What is asked once can wait on the smallest.
        ...(height < 700 ? [] : found('ask-to-move-on').querySelectorAll('button')),
      );
      expect(boxOf(lane())).toMatchObject({ top, height: laneHeight });
    }
    session.justPassed = undefined;

    session.placeHelp = {
      sentence: SENTENCES.find(({ text: said }) => said.startsWith('Slipped'))!.text,
      isOffered: true,
      waitForMe: () => undefined,
      bringMeBack: () => undefined,
    };
    await expect.element(text('slip')).toBeVisible();
    expectSeen(found('slip'), ...found('slip').parentElement!.querySelectorAll('button'));
  });
});
