import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import type { RigProfile } from '../../../src/clock/latency/rig-profile';
import { tapEstimate } from '../../../src/clock/latency/tap-estimate';
import { PUBLISHED_SIZES } from '../../../src/clock/latency/tendency';
import { mountShell } from '../mount-shell';
import { MEASURED, playedOffsets } from '../sample-offsets';

const FIVE_LATE = {
  deviceAndHabitMs: 5,
  lowerMs: 2,
  upperMs: 8,
  spreadMs: 12,
  strokes: 36,
  warmUp: 4,
  wild: 0,
};
const text = (testid: string) => page.getByTestId(testid);

describe('the offset page', () => {
  it('keeps the rig’s number and the player’s apart', async () => {
    const { calibration } = await mountShell('#kit/offset');
    await expect.element(text('rig-offset')).toHaveTextContent('–');
    await expect.element(text('rig-how')).toHaveTextContent('not measured yet');
    calibration.rigs.profile = MEASURED;
    await expect.element(text('rig-offset')).toHaveTextContent('+23.4');
    await expect
      .element(text('rig-how'))
      .toHaveTextContent(
        'measured by microphone on 24 November 2026; with 95 % confidence +22.5 to +24.3 ms',
      );
    await expect.element(text('own-tendency')).toHaveTextContent('–');
    calibration.rigs.remember(FIVE_LATE);
    // 5 − 23.4, worked by hand.
    await expect.element(text('own-tendency')).toHaveTextContent('−18');
    await expect.element(page.getByText('you, ms early')).toBeVisible();
    await expect.element(text('own-words')).toHaveTextContent('You tend to play 18 ms ahead');
    await expect.element(text('own-words')).toHaveTextContent('never subtracted');
    await expect
      .element(text('own-words'))
      .toHaveTextContent('Played to the click on 25 November 2026');
  });

  it('tells no tendency where the rig’s number was taken from the same playing', async () => {
    const { calibration } = await mountShell('#kit/offset', (parts) => {
      parts.calibration.rigs.profile = { ...MEASURED, method: 'from playing' };
    });
    calibration.rigs.remember(FIVE_LATE);
    await expect.element(page.getByText('the rig and your habit, ms')).toBeVisible();
    await expect.element(text('own-tendency')).toHaveTextContent('–');
    await expect.element(text('own-words')).toHaveTextContent('cannot be told');
  });

  it('says how far people play ahead, with the sources', async () => {
    await mountShell('#kit/offset');
    for (const { sentence, source } of PUBLISHED_SIZES) {
      await expect.element(page.getByText(sentence)).toBeVisible();
      await expect.element(page.getByText(source)).toBeVisible();
    }
  });

  it('warns against a wireless output, and asks for the kit where there is none', async () => {
    const { calibration, inputs } = await mountShell('#kit/offset');
    calibration.rigs.radioAdvice = 'This output looks like a radio link. Use a cable.';
    await expect.element(text('radio')).toHaveTextContent('Use a cable');
    inputs.port.kind = 'unplugged';
    await expect.element(text('no-kit')).toHaveTextContent('connect the kit');
  });
});

describe('playing to the click', () => {
  const open = async () => {
    const parts = await mountShell('#kit/offset');
    await page.getByLabelText(/from playing/).click();
    return parts.calibration;
  };

  it('leads through a minute and may end it once there are enough strokes', async () => {
    const { played } = await open();
    await text('played-begin').click();
    await expect.element(text('played-state')).toHaveTextContent('one stroke to every click');
    played.clicked = 23;
    played.strokes = 23;
    played.pad = 38;
    await expect.element(text('click-count')).toHaveTextContent('click 23 of 80');
    await expect.element(page.getByText('23 strokes on snare')).toBeVisible();
    const finish = page.getByRole('button', { name: 'Work it out now' });
    await expect.element(finish).toBeDisabled();
    played.strokes = 24;
    await expect.element(finish).toBeEnabled();
    await finish.click();
    expect(played.phase).toBe('done');
  });

  it('tells the sum, its interval, what was left out, and draws it', async () => {
    const { played, rigs } = await open();
    played.phase = 'done';
    played.estimate = tapEstimate([90, 80, 70, 60, ...playedOffsets().slice(4), 190], 600);
    await expect.element(text('played-state')).toHaveTextContent('together: +5.0 ms');
    await expect.element(text('played-figures')).toHaveTextContent('first 4 as warm-up, and 1 far');
    await expect
      .element(page.getByRole('img', { name: /^33 strokes from −\d+ to \+195 ms/ }))
      .toBeVisible();
    await text('played-keep').click();
    expect(rigs.kept).toMatchObject([{ method: 'from playing' }]);
    expect(rigs.kept[0]!.deviceOffsetMs).toBeCloseTo(5, 0);
  });

  it.each([
    ['spread too large', playedOffsets(50), /scatter by .* play once more/],
    ['too few', playedOffsets().slice(0, 12), /only 8 are left; play at least 24/],
    ['two groups', playedOffsets().map((ms, i) => ms + (i % 2) * 200), /two groups/],
    ['drift', playedOffsets(2).map((ms, i) => ms + i * 3), /moved by/],
  ])('refuses politely and shows why: %s', async (_, offsets, sentence) => {
    const { played } = await open();
    played.phase = 'done';
    played.estimate = tapEstimate(offsets, 600);
    await expect.element(text('played-state')).toHaveTextContent(sentence);
    await expect.element(text('histogram')).toBeVisible();
    await expect.element(page.getByRole('button', { name: 'Play again' })).toBeVisible();
    expect(text('played-keep').query()).toBeNull();
  });
});

describe('measuring by microphone', () => {
  it('says beforehand what becomes of the recording', async () => {
    await mountShell('#kit/offset');
    await expect.element(page.getByText(/thrown away at once. Nothing is sent/)).toBeVisible();
  });

  it('tells each state, and what stands in the way', async () => {
    const { microphone, rigs } = (await mountShell('#kit/offset')).calibration;
    const state = text('microphone-state');
    await text('microphone-begin').click();
    await expect.element(state).toHaveTextContent('allow it');
    microphone.phase = 'recording';
    microphone.clicked = 12;
    await expect.element(state).toHaveTextContent('in between the clicks');
    await expect.element(page.getByText('click 12 of 40')).toBeVisible();
    microphone.phase = 'analysing';
    await expect.element(state).toHaveTextContent('Working it out.');
    microphone.phase = 'idle';
    microphone.problem = 'No microphone was found.';
    await expect.element(state).toHaveTextContent('No microphone was found.');
    await expect.element(page.getByRole('button', { name: 'Measure again' })).toBeVisible();
    microphone.problem = undefined;
    microphone.phase = 'done';
    microphone.outcome = { outcome: 'refused', why: 'too quiet', sentence: 'Almost nothing.' };
    await expect.element(state).toHaveTextContent('Almost nothing.');
    microphone.outcome = {
      outcome: 'measured',
      deviceOffsetMs: 23.4,
      lowerMs: 22.5,
      upperMs: 24.3,
      spreadMs: 0.4,
      strokes: 31,
      clicks: 40,
      peakDb: 27,
    };
    await expect.element(state).toHaveTextContent('+23.4 ms');
    await expect.element(text('microphone-figures')).toHaveTextContent('31 strokes and 40 clicks');
    await text('microphone-keep').click();
    expect(rigs.kept).toEqual([
      {
        deviceOffsetMs: 23.4,
        method: 'microphone',
        intervalMs: [22.5, 24.3],
        spreadMs: 0.4,
        strokes: 31,
      },
    ]);
  });
});

describe('setting the offset by hand', () => {
  it('explains the sign, refuses nonsense and keeps a number', async () => {
    const { rigs } = (await mountShell('#kit/offset')).calibration;
    await page.getByLabelText('by hand').click();
    await expect.element(page.getByText(/Plus means late/)).toBeVisible();
    const field = page.getByLabelText('Offset of the rig, ms');
    const keep = page.getByRole('button', { name: 'Keep this offset' });
    await keep.click();
    await field.fill('4000');
    await keep.click();
    await expect.element(page.getByText('Type a number from −1000 to 1000.')).toBeVisible();
    expect(rigs.kept).toEqual([]);
    await field.fill('-12.5');
    await keep.click();
    expect(rigs.kept).toEqual([{ deviceOffsetMs: -12.5, method: 'by hand' }]);
    await expect.element(text('rig-offset')).toHaveTextContent('−1');
  });
});

describe('the line on the practise screen', () => {
  it('tells the offset in force, only while the kit plays', async () => {
    const { calibration, inputs } = await mountShell('#practise');
    await expect.element(text('rig-line')).toHaveTextContent('not measured yet');
    calibration.rigs.profile = { ...MEASURED, method: 'by hand' } satisfies RigProfile;
    await expect
      .element(text('rig-line'))
      .toHaveTextContent('Offset of this rig: +23 ms, set by hand on 24 November 2026.');
    inputs.choosePlayer('simulated player');
    await expect.poll(() => text('rig-line').query()).toBeNull();
  });

  it('tells over every screen when the output has changed', async () => {
    const { calibration } = await mountShell('#phrases');
    calibration.rigs.notices = ['The output device changed.'];
    await expect.element(text('notice')).toHaveTextContent('The output device changed.');
  });
});
