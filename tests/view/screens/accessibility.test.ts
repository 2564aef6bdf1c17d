import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { writeKit } from '../../../src/kit/parse-kit';
import { writePhrases } from '../../../src/phrase/file/phrase-list';
import { vary } from '../../../src/phrase/vary/vary';
import { tapEstimate } from '../../../src/clock/latency/tap-estimate';
import { CHAPTER_IDS } from '../../../src/view/shell/route';
import { mountShell } from '../mount-shell';
import { playFiveOars } from '../played-rounds';
import { playHarbourKit } from '../played-trace';
import { MEASURED, playedOffsets } from '../sample-offsets';
import { summaryOf } from '../../../src/practice/takes/take-scoring';
import { fillLog, manyFindings } from '../sample-takes';
import { sampleStats } from '../sample-stats';
import type { StubParts } from '../stub-parts';

const playing = ({ session }: StubParts) => {
  session.stats = sampleStats();
  session.status = 'playing';
};
const everythingOpen = ({ session, inputs }: StubParts) => {
  session.stats = sampleStats();
  inputs.player = 'keyboard and pads';
};
const beyondPads = ({ firstStart }: StubParts) => {
  for (const step of ['kit', 'pads'] as const) firstStart.finish(step);
};
const SCREENS: readonly [string, string, ((parts: StubParts) => void | Promise<void>)?][] = [
  ['practise, idle', '#practise'],
  ['practise, playing', '#practise', playing],
  [
    'practise, a note not on the map',
    '#practise',
    (parts) => {
      playing(parts);
      parts.inputs.monitor.unknown = [{ note: 31, strokes: 5 }];
      parts.session.notices = ['The sound was paused in bar 3.'];
    },
  ],
  [
    'practise, the last stroke shown',
    '#practise',
    ({ inputs }) => void (inputs.monitor.heard = { note: 38, voice: 'snare', velocity: 64 }),
  ],
  ['practise, at a first visit', '#practise', ({ inputs }) => void (inputs.isUnasked = true)],
  ['first start, no kit', '#kit/first-start', ({ inputs }) => void (inputs.port.kind = 'denied')],
  ['first start, kit', '#kit/first-start'],
  ['first start, pads', '#kit/first-start', ({ firstStart }) => firstStart.finish('kit')],
  ['first start, levels', '#kit/first-start', beyondPads],
  [
    'first start, offset',
    '#kit/first-start',
    (parts) => {
      beyondPads(parts);
      parts.firstStart.leaveOut('levels');
    },
  ],
  [
    'first start, play',
    '#kit/first-start',
    (parts) => {
      beyondPads(parts);
      parts.firstStart.leaveOut('levels', 'offset');
    },
  ],
  [
    'practise, a pad to be struck',
    '#practise',
    ({ firstStart }) => firstStart.rememberPads({ has: ['snare'], lacks: [] }),
  ],
  [
    'practise, from the throne',
    '#practise',
    (parts) => {
      playing(parts);
      parts.session.choose({ fromThrone: true });
    },
  ],
  ['practise, no kit', '#practise', ({ inputs }) => void (inputs.port.kind = 'ask')],
  ['another screen, playing', '#help', playing],
  ['practise, with pads', '#practise', everythingOpen],
  ['practise, simulated', '#practise', ({ inputs }) => inputs.choosePlayer('simulated player')],
  ['practise, from a file', '#practise', ({ inputs }) => inputs.choosePlayer('file')],
  ['phrases', '#phrases'],
  ['a phrase', '#phrases/quay-steps'],
  ['an unknown address', '#nonsense/3'],
  ['kit', '#kit'],
  [
    'kit, with a note not on the map',
    '#kit',
    ({ inputs }) => void (inputs.monitor.unknown = [{ note: 31, strokes: 5 }]),
  ],
  [
    'what the kit sends',
    '#kit/what-it-sends',
    ({ inputs }) => playHarbourKit(inputs.monitor.trace),
  ],
  ['offset of the rig', '#kit/offset'],
  [
    'offset of the rig, measured, by radio',
    '#kit/offset',
    ({ calibration }) => {
      calibration.rigs.profile = MEASURED;
      calibration.rigs.radioAdvice = 'This output looks wireless; use a cable.';
      calibration.microphone.phase = 'recording';
      calibration.microphone.clicked = 12;
    },
  ],
  ['a new phrase', '#compose'],
  ['a phrase being written', '#compose/five-fathoms'],
  ['variations, no phrase chosen', '#vary'],
  ['sheet, no phrase chosen', '#sheet'],
  ['capture, before', '#capture'],
  [
    'capture, listening with pads',
    '#capture',
    async (parts) => {
      parts.inputs.choosePlayer('keyboard and pads');
      await playFiveOars(parts, 2, 'still playing');
    },
  ],
  ['capture, written down', '#capture', async (parts) => playFiveOars(parts, 8)],
  [
    'capture, not written down, unplugged',
    '#capture',
    async (parts) => {
      await playFiveOars(parts, 1, 'still playing');
      parts.inputs.port.kind = 'unplugged';
      parts.capturing.stop();
    },
  ],
  ['log', '#log', async (parts) => void (await fillLog(parts))],
  [
    'what is kept',
    '#log/what-is-kept',
    ({ damaged }) => damaged.add({ table: 'takes', key: 'b', record: null }),
  ],
  ['open a file', '#open'],
  [
    'open a file, phrases with namesakes in it',
    '#open',
    ({ opening, library }) =>
      opening.openText(
        writePhrases(library.phrases.map(({ phrase }) => ({ ...phrase, tempoBpm: 61 }))),
        'phrases.json',
      ),
  ],
  [
    'open a file, a kit in it',
    '#open',
    ({ opening }) => opening.openText(writeKit({ ...EDGE_AND_RIM, title: 'Quay' }), 'kit.json'),
  ],
  [
    'open a file, a backup in it',
    '#open',
    async (parts) => {
      await fillLog(parts);
      const saved = await parts.backups.save('2026-11-29T18:20:00.000Z');
      if (saved.ok) await parts.opening.open(new File([saved.value.file], 'all.gz'));
    },
  ],
  ['open a file, a link that is cut off', '#open/p1.q1Y'],
  ['help', '#help'],
  ['methods', '#help/methods'],
  ...CHAPTER_IDS.map((id): [string, string] => [`help, ${id}`, `#help/${id}`]),
];

/** In the light theme by all rules, in the dark one by those about colours: themes differ in nothing else. */
async function violations({ theme }: StubParts): Promise<string[]> {
  for (const details of document.querySelectorAll('details')) details.open = true;
  theme.choose('light');
  // What needs the page's own head (language, title) is checked on the built app.
  const found = await broken({ rules: { 'html-has-lang': { enabled: false } } });
  theme.choose('dark');
  return [...found, ...(await broken({ runOnly: ['color-contrast', 'link-in-text-block'] }))];
}

async function broken(options: axe.RunOptions): Promise<string[]> {
  const { violations } = await axe.run(document, { resultTypes: ['violations'], ...options });
  const theme = document.documentElement.dataset['theme'];
  return violations.map(({ id, nodes }) => `${theme}, ${id}: ${nodes[0]?.html}`);
}

describe('axe finds nothing on', () => {
  afterEach(() => {
    delete document.documentElement.dataset['theme'];
  });

  for (const [name, hash, prepare] of SCREENS)
    it(name, async () => {
      const parts = await mountShell(hash, prepare);
      await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
      expect(await violations(parts)).toEqual([]);
    });

  for (const phase of ['playing', 'done'] as const)
    it(`playing to the click, ${phase}`, async () => {
      const parts = await mountShell('#kit/offset');
      const { calibration } = parts;
      calibration.played.phase = phase;
      if (phase === 'done') calibration.played.estimate = tapEstimate(playedOffsets(), 600);
      await page.getByLabelText(/from playing/).click();
      expect(await violations(parts)).toEqual([]);
    });

  it('a velocity curve', async () => {
    const parts = await mountShell('#kit');
    const { inputs } = parts;
    await page.getByTestId('learn-levels').click();
    for (const velocity of [20, 22, 24, 26, 28, 30, 60, 62])
      inputs.listener!(0, 0x99, 38, velocity);
    await expect.element(page.getByTestId('velocity-curve').first()).toBeVisible();
    expect(await violations(parts)).toEqual([]);
  });

  it('variations: offered, kept, refused, and none within the limits', async () => {
    const parts = await mountShell('#vary/quay-steps');
    const { library } = parts;
    const mirrored = vary(library.find('quay-steps')!.phrase, { kind: 'mirror' })!;
    const outcome = page.getByTestId('outcome');
    await outcome.getByTestId('keep').click();
    await expect.element(outcome.getByTestId('practise')).toBeVisible();
    await expect.element(page.getByTestId('proposal').first()).toBeVisible();
    expect(await violations(parts)).toEqual([]);
    await page.getByRole('radio', { name: 'Mirror the hands' }).click();
    await expect.element(outcome.getByText(mirrored.sentence)).toBeVisible();
    await outcome.getByTestId('further').click();
    await expect.element(page.getByTestId('refused')).toBeVisible();
    await page.getByLabelText('highest difficulty').fill('1');
    await userEvent.tab();
    await expect.element(page.getByTestId('loosen')).toBeVisible();
    expect(await violations(parts)).toEqual([]);
  });

  it('a phrase, with everything open, at a tempo that is too fast', async () => {
    const parts = await mountShell('#phrases/seven-fenders');
    await page.getByRole('heading', { level: 2, name: 'Playability' }).click();
    await page.getByLabelText('At a tempo of, bpm').fill('300');
    await page.getByRole('heading', { level: 2, name: 'Fit to a form' }).click();
    await page.getByLabelText('Bars of the form').fill('40');
    await page.getByRole('button', { name: 'Use in a new phrase: Rest first' }).click();
    await expect.element(page.getByTestId('kept')).toBeVisible();
    for (const details of document.querySelectorAll('details')) details.open = true;
    expect(await violations(parts)).toEqual([]);
  });

  it('a sheet, engraved', async () => {
    const parts = await mountShell('#sheet/quay-steps', ({ sheets }) =>
      sheets.choose({ layers: 'one', size: 'stand' }),
    );
    const figure = page.getByRole('img', { name: /^Score line, layer \d: / });
    await expect.element(figure).toBeVisible();
    expect(await violations(parts)).toEqual([]);
  });

  it('phrases that are ticked, their link and its code', async () => {
    const parts = await mountShell('#phrases');
    await page.getByLabelText('Choose Quay Steps').click();
    expect(await violations(parts)).toEqual([]);
    await page.getByTestId('copy-link').click();
    await page.getByTestId('show-code').click();
    await expect.element(page.getByTestId('code')).toBeVisible();
    expect(await violations(parts)).toEqual([]);
  });

  it('where a file can be dropped', async () => {
    const parts = await mountShell('#phrases');
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File(['x'], 'x'));
    const drag = () => dispatchEvent(new DragEvent('dragover', { dataTransfer, cancelable: true }));
    await expect.poll(drag).toBe(false);
    await expect.element(page.getByTestId('drop-target')).toBeVisible();
    expect(await violations(parts)).toEqual([]);
  });

  it('crosstalk: asked for, told and known', async () => {
    const parts = await mountShell('#kit');
    const { inputs } = parts;
    await page.getByTestId('learn-crosstalk').click();
    await expect.element(page.getByTestId('learn-crosstalk-ask')).toBeVisible();
    expect(await violations(parts)).toEqual([]);
    for (let i = 0; i < 6; i++) {
      inputs.listener!(1000 * i, 0x99, 36, 110);
      inputs.listener!(1000 * i + 4, 0x99, 38, i < 4 ? 20 : 60);
      inputs.listener!(1000 * i + 5, 0x99, 48, 22);
    }
    await page.getByRole('button', { name: 'There are no more pads' }).click();
    await expect.element(page.getByTestId('crosstalk-answers')).toBeVisible();
    expect(await violations(parts)).toEqual([]);
    const keep = page.getByRole('button', { name: 'Keep in my kit' });
    await keep.click();
    inputs.kit = inputs.saved!;
    await expect.element(page.getByTestId('forget-crosstalk')).toBeVisible();
    expect(await violations(parts)).toEqual([]);
  });

  it('an opened take', async () => {
    let id = '';
    const parts = await mountShell('#log', async (parts) => void (id = (await fillLog(parts))[0]!));
    location.hash = `#log/${id}`;
    await expect.element(page.getByTestId('figures')).toBeVisible();
    expect(await violations(parts)).toEqual([]);
  });

  it('an opened take, all unfolded, a finding shown and heard', async () => {
    let id = '';
    const parts = await mountShell('#log', async ({ store, session }) => {
      const take = manyFindings(session.entry!);
      id = (await store.add(take, summaryOf(take)!)).summary.id;
    });
    location.hash = `#log/${id}`;
    await expect.element(page.getByTestId('more-findings')).toBeVisible();
    for (const details of document.querySelectorAll('details')) details.open = true;
    await page
      .getByRole('button', { name: /^Show in the lane/ })
      .first()
      .click();
    await page
      .getByRole('button', { name: /^Hear it slower/ })
      .first()
      .click();
    await expect.element(page.getByTestId('sounding').first()).toHaveTextContent('Sounds');
    expect(await violations(parts)).toEqual([]);
  });
});

describe('moving between screens', () => {
  it('puts the focus on the new heading', async () => {
    await mountShell('#practise');
    await page.getByRole('link', { name: 'Kit', exact: true }).click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Kit' })).toHaveFocus();
    expect(document.title).toContain('Kit');
  });

  it('can skip the navigation', async () => {
    await mountShell('#phrases');
    await userEvent.tab();
    await expect.element(page.getByRole('button', { name: 'Skip to content' })).toHaveFocus();
    await userEvent.keyboard('{Enter}');
    await expect.element(page.getByRole('heading', { level: 1 })).toHaveFocus();
  });
});
