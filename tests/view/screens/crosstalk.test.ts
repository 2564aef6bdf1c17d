import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { withCrosstalk } from '../../../src/kit/faults/learn-crosstalk';
import { CAUTIONS } from '../../../src/coach/cautions';
import type { Kit } from '../../../src/kit/kit';
import { setAside } from '../../../src/kit/set-aside';
import type { StrokeSink } from '../../../src/midi/stroke-source';
import { mountShell } from '../mount-shell';

const BOATHOUSE: Kit = {
  title: 'Boathouse',
  opening: { controller: 4, highMeans: 'closed', openFrom: 0.5 },
  pads: [
    { note: 48, name: 'tom 1 head', voice: 'high tom', group: 'tom 1' },
    { note: 51, name: 'ride bow', voice: 'ride', group: 'ride' },
    { note: 38, name: 'snare head', voice: 'snare', group: 'snare' },
    { note: 40, name: 'snare rim', voice: 'snare', group: 'snare' },
  ],
};
type Listening = { listener: StrokeSink | undefined };
const CAUTION = CAUTIONS.find(({ code }) => code === 'hard strokes')!.text;
let nowMs = 0;

/** Hard strikes a second apart; another pad answers each, so much later and so loud. */
function strike(inputs: Listening, note: number, times: number, answer?: [number, number, number]) {
  for (let i = 0; i < times; i++) {
    nowMs += 1000;
    inputs.listener!(nowMs, 0x99, note, 100);
    if (answer) inputs.listener!(nowMs + answer[1], 0x99, answer[0], answer[2]);
    inputs.listener!(nowMs + 40, 0x89, note, 0);
  }
}
const ask = () => page.getByTestId('learn-crosstalk-ask');
const count = () => page.getByTestId('crosstalk-count');
const button = (name: string) => page.getByRole('button', { name });

async function onBoathouse(crosstalk?: Kit['crosstalk']) {
  const { inputs } = await mountShell('#kit', ({ inputs }) => {
    inputs.kit = crosstalk ? { ...BOATHOUSE, crosstalk } : BOATHOUSE;
  });
  return inputs;
}

describe('learning crosstalk', () => {
  it('asks pad by pad, tells what answered, and keeps it in the kit', async () => {
    const inputs = await onBoathouse();
    await expect.element(page.getByText(CAUTION)).toBeVisible();
    await page.getByTestId('learn-crosstalk').click();
    expect(inputs.player).toBe('kit');
    await expect.element(ask()).toHaveTextContent(/: snare\.$/);
    strike(inputs, 38, 3, [48, 8, 20]);
    strike(inputs, 40, 2, [48, 8, 25]);
    await expect.element(count()).toHaveTextContent(/^5 of 6\b.* 1 of 3\./);
    // The answer to the last strike comes when the next pad is asked for already.
    strike(inputs, 38, 1, [48, 8, 20]);
    await expect.element(ask()).toHaveTextContent(/: tom 1\.$/);
    await expect.element(count()).toHaveTextContent(/^0 of 6\b.* 2 of 3\./);
    strike(inputs, 48, 6);
    await button('Not on my kit').click();
    const answers = page.getByTestId('crosstalk-answers');
    await expect.element(answers.getByRole('heading')).toHaveTextContent('snare');
    await expect
      .element(answers.getByRole('listitem'))
      .toHaveTextContent(/“tom 1”.* 6 of 6 .*“snare”, 8\.0 ms .*25 %/);
    await expect.element(answers.getByText(/: tom 1\.$/)).toBeVisible();
    await button('Keep in my kit').click();
    await expect.element(page.getByRole('status').filter({ hasText: /^Boathouse/ })).toBeVisible();
    expect(inputs.listener).toBeUndefined();
    expect(inputs.saved?.title).toBe('Boathouse');
    // 8 ms and 25 % come with every strike: a stroke like that is the kit's, a louder one the player's.
    const hits = (velocity: number) => [
      { timeUs: 0, pad: 38, velocity: 100 },
      { timeUs: 8000, pad: 48, velocity },
    ];
    expect([...setAside(hits(25), BOATHOUSE)]).toEqual([0, 0]);
    expect([...setAside(hits(25), inputs.saved!)]).toEqual([0, 2]);
    expect([...setAside(hits(50), inputs.saved!)]).toEqual([0, 0]);
  });

  it('says when a strike does not count, and why', async () => {
    const inputs = await onBoathouse();
    await page.getByTestId('learn-crosstalk').click();
    inputs.listener!(0, 0x99, 38, 45);
    await expect.element(count()).toHaveTextContent(/^0 of 6\b.*\b45\b.*\b60\b/);
    inputs.listener!(1000, 0x99, 51, 90);
    await expect.element(count()).toHaveTextContent(/^0 of 6\b.* ride\.$/);
    // A note that no pad has, a controller and a double trigger are no strikes.
    inputs.listener!(2000, 0x99, 99, 90);
    inputs.listener!(2000, 0xb9, 4, 90);
    inputs.listener!(3000, 0x99, 38, 90);
    inputs.listener!(3020, 0x99, 38, 70);
    await expect.element(count()).toHaveTextContent(/^1 of 6\b.* 1 of 3\..*\b90\.$/);
  });

  it('stops at any time, and can ask again', async () => {
    const inputs = await onBoathouse();
    await page.getByTestId('learn-crosstalk').click();
    await expect.element(page.getByTestId('learn')).not.toBeInTheDocument();
    strike(inputs, 38, 6);
    strike(inputs, 48, 2);
    await button('There are no more pads').click();
    const answers = page.getByTestId('crosstalk-answers');
    await expect.element(answers.getByText(/: snare\.$/)).toBeVisible();
    await expect.element(answers.getByText(/: tom 1\.$/)).toBeVisible();
    expect(answers.getByRole('listitem').elements()).toEqual([]);
    await expect.element(button('Keep in my kit')).not.toBeInTheDocument();
    await button('Back one pad').click();
    await expect.element(ask()).toHaveTextContent(/: tom 1\.$/);
    await expect.element(count()).toHaveTextContent(/^0 of 6\b.* 2 of 2\./);
    await button('Cancel').click();
    expect(inputs.listener).toBeUndefined();
    expect(inputs.saved).toBeUndefined();
    await expect.element(page.getByTestId('learn')).toBeVisible();
  });

  it('tells an answer that is too loud and does not mask it', async () => {
    const inputs = await onBoathouse();
    await page.getByTestId('learn-crosstalk').click();
    strike(inputs, 38, 6, [48, 3, 70]);
    await button('There are no more pads').click();
    const answers = page.getByTestId('crosstalk-answers');
    await expect.element(answers.getByRole('listitem')).toHaveTextContent(/“tom 1”.*“snare”.*70 %/);
    await expect.element(button('Keep in my kit')).not.toBeInTheDocument();
  });

  it('keeps a built-in kit as an own copy', async () => {
    const { inputs } = await mountShell('#kit');
    await page.getByTestId('learn-crosstalk').click();
    await expect.element(ask()).toHaveTextContent(/: bass drum\.$/);
    strike(inputs, 36, 6, [38, 2, 20]);
    await button('There are no more pads').click();
    await button('Keep in my kit').click();
    expect(inputs.saved?.title).toBe('Common electronic kit, my crosstalk');
    expect(inputs.saved?.crosstalk).toHaveLength(1);
  });
});

describe('crosstalk that the kit knows', () => {
  const SNARE = { struck: 'snare', answers: 'tom 1', withinMs: 10, upToPercent: 30 };
  const RIDE = { struck: 'ride', answers: 'tom 1', withinMs: 6, upToPercent: 18 };

  it('is listed and can be forgotten', async () => {
    const inputs = await onBoathouse([SNARE, RIDE]);
    await page.getByText(/\(2\)$/).click();
    await expect
      .element(page.getByRole('listitem').filter({ hasText: /^tom 1\b.* 10 ms .*snare.* 30 %/ }))
      .toBeVisible();
    await page.getByTestId('forget-crosstalk').click();
    expect(inputs.saved?.crosstalk).toEqual([]);
    await expect.element(page.getByRole('status').filter({ hasText: /^Boathouse/ })).toBeVisible();
  });

  it('gives way for a pad that no longer shakes others, and stays for the rest', async () => {
    const inputs = await onBoathouse([SNARE, RIDE]);
    await page.getByTestId('learn-crosstalk').click();
    strike(inputs, 38, 6);
    await button('There are no more pads').click();
    await button('Keep in my kit').click();
    expect(inputs.saved).toEqual(withCrosstalk(BOATHOUSE, [RIDE]));
  });
});
