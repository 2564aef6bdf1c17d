import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { beats } from '../../../../src/time/beats';
import type { LostPlace } from '../../../../src/practice/place-help.svelte';
import { mountShell } from '../../mount-shell';
import { sampleStats } from '../../sample-stats';

const SENTENCE = 'Slipped one sixteenth late since bar 9.';
const help = (some: Partial<LostPlace> = {}) => ({
  sentence: SENTENCE,
  isOffered: true,
  waitForMe: vi.fn<() => void>(),
  bringMeBack: vi.fn<() => void>(),
  ...some,
});
const text = (testid: string) => page.getByTestId(testid);
const playing = async (placeHelp: LostPlace | undefined) => {
  const parts = await mountShell('#practise', ({ session }) => {
    session.status = 'playing';
    session.stats = sampleStats({
      gateOfRows: {
        ...sampleStats().gateOfRows,
        ownLack: { pickup: undefined, notes: undefined, positions: [2, 5] },
      },
    });
    session.placeHelp = placeHelp;
  });
  await expect.element(text('gate')).toBeInTheDocument();
  return parts;
};

describe('a lost place on Practise', () => {
  it('is said in the place of the coach’s line, with two ways out of it', async () => {
    const lost = help();
    await playing(lost);
    await expect.element(text('slip')).toHaveTextContent(SENTENCE);
    expect(text('finding').query()).toBeNull();
    await page.getByRole('button', { name: 'Wait for me' }).click();
    expect(lost.waitForMe).toHaveBeenCalledOnce();
    await page.getByRole('button', { name: 'Bring me back' }).click();
    expect(lost.bringMeBack).toHaveBeenCalledOnce();
  });

  it('is answered by a key, but where one writes, or the key is held', async () => {
    const lost = help();
    await playing(lost);
    await expect.element(text('slip')).toBeInTheDocument();
    await userEvent.keyboard('1');
    expect(lost.waitForMe).toHaveBeenCalledOnce();
    await userEvent.keyboard('2');
    expect(lost.bringMeBack).toHaveBeenCalledOnce();
    await userEvent.keyboard('{Control>}1{/Control}');
    await text('tempo').click();
    await userEvent.keyboard('12');
    window.dispatchEvent(new KeyboardEvent('keydown', { key: '1', repeat: true }));
    expect(lost.waitForMe).toHaveBeenCalledOnce();
    expect(lost.bringMeBack).toHaveBeenCalledOnce();
  });

  it('leaves the whole lane in sight on a phone', async () => {
    await page.viewport(390, 844);
    await playing(help());
    await expect.element(text('slip')).toBeVisible();
    const lane = page.getByRole('img', { name: /^Lane/ });
    await expect
      .poll(() => lane.element().getBoundingClientRect().bottom)
      .toBeLessThanOrEqual(text('slip').element().parentElement!.getBoundingClientRect().top);
    await page.viewport(1440, 900);
  });

  it('says what was chosen, and offers it no more', async () => {
    const { session } = await playing(help());
    session.placeHelp = help({ isOffered: false });
    session.upcoming = [
      { waitPartials: -2, subdivision: 4, bar: 12, beat: beats(5, 2), atUs: 30_000_000 },
    ];
    await expect
      .element(text('slip-answer'))
      .toHaveTextContent(
        'From bar 12 beat 2 1/2 the phrase waits for you, two sixteenths earlier.',
      );
    expect(page.getByRole('button', { name: 'Wait for me' }).query()).toBeNull();
    session.upcoming = [{ countInBars: 2, bar: 12, atUs: 30_000_000 }];
    await expect.element(text('upcoming')).toHaveTextContent(/^counts in at bar 12$/);
    await expect
      .element(text('slip-answer'))
      .toHaveTextContent('A count-in at bar 12, then the phrase from its beginning at bar 14.');
    await expect
      .element(text('cycle-announcement'))
      .toHaveTextContent('A count-in at bar 12, then the phrase from its beginning at bar 14.');
  });

  it('is read aloud once, with the keys', async () => {
    await playing(help());
    await expect
      .element(text('cycle-announcement'))
      .toHaveTextContent(`${SENTENCE} Key 1: wait for me. Key 2: bring me back.`);
  });

  it('is read aloud with the keys that the player has chosen, and with none that there are not', async () => {
    const { controls, session } = await playing(undefined);
    controls.add('wait for me', { kind: 'key', key: 'w' });
    for (const one of [...controls.of('wait for me'), ...controls.of('bring me back')])
      if (one.control.kind === 'key' && one.control.key !== 'w') controls.remove(one);
    session.placeHelp = help();
    await expect
      .element(text('cycle-announcement'))
      .toHaveTextContent(new RegExp(`${SENTENCE} Key W: wait for me\\.$`));
  });

  it('is what the gate line goes on to speak of as long as its figures are of then', async () => {
    const { session } = await playing(help({ sentence: undefined }));
    session.stats = sampleStats({ isLost: true });
    await expect.element(text('gate')).toHaveTextContent('To pass: find the place again first.');
  });

  it('is what the gate line speaks of, and of no positions that were wrong', async () => {
    const { session } = await playing(help());
    await expect.element(text('gate')).toHaveTextContent('To pass: find the place again first.');
    session.placeHelp = help({ sentence: undefined });
    await expect.element(text('gate')).toHaveTextContent('positions 2 and 5 (wrong every time)');
    expect(text('slip').query()).toBeNull();
    await expect.element(text('finding')).toBeInTheDocument();
  });
});
