import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import type { RigProfile } from '../../../src/clock/latency/rig-profile';
import { tapEstimate } from '../../../src/clock/latency/tap-estimate';
import { PUBLISHED_SIZES } from '../../../src/clock/latency/tendency';
import { histogramWords } from '../../../src/view/screens/kit/offset/histogram-scale';
import {
  microphoneWords,
  offsetLine,
  ownWords,
  playingWords,
  rigWords,
  strokesWords,
} from '../../../src/view/screens/kit/offset/offset-words';
import { hashOf } from '../../../src/view/shell/route';
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
    expect(text('forget-rig').query()).toBeNull();
    calibration.rigs.profile = MEASURED;
    await expect.element(text('rig-offset')).toHaveTextContent('+23.4');
    await expect.element(text('rig-how')).toHaveTextContent(rigWords(MEASURED));
    await expect.element(text('forget-rig')).toBeVisible();
    await expect.element(text('own-tendency')).toHaveTextContent('–');
    calibration.rigs.remember(FIVE_LATE);
    // 5 − 23.4, worked by hand.
    await expect.element(text('own-tendency')).toHaveTextContent('−18');
    await expect.element(text('own-tendency')).toHaveClass('early');
    await expect
      .element(text('own-words'))
      .toHaveTextContent(ownWords(MEASURED, calibration.rigs.playedToClick));
  });

  it('tells no tendency where the rig’s number was taken from the same playing', async () => {
    const fromPlaying: RigProfile = { ...MEASURED, method: 'from playing' };
    const { calibration } = await mountShell('#kit/offset', (parts) => {
      parts.calibration.rigs.profile = fromPlaying;
    });
    calibration.rigs.remember(FIVE_LATE);
    await expect.element(text('own-tendency')).toHaveTextContent('–');
    await expect
      .element(text('own-words'))
      .toHaveTextContent(ownWords(fromPlaying, calibration.rigs.playedToClick));
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
    calibration.rigs.radioAdvice = 'Radio.';
    await expect.element(text('radio')).toHaveTextContent('Radio.');
    inputs.port.kind = 'unplugged';
    await expect.element(text('no-kit').getByRole('link')).toHaveAttribute('href', hashOf('kit'));
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
    expect(played.phase).toBe('playing');
    played.clicked = 23;
    played.strokes = 23;
    played.pad = 38;
    const progress = page.getByRole('progressbar');
    await expect.element(progress).toHaveAttribute('max', '80');
    await expect.element(progress).toHaveProperty('value', 23);
    await expect.element(text('played-strokes')).toHaveTextContent(strokesWords(23, 'snare head'));
    const finish = text('played-finish');
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
    await expect.element(text('played-state')).toHaveTextContent(playingWords(played));
    await expect.element(text('played-figures')).toHaveTextContent(/\b32\b.*\b4\b.*\b1\b/);
    const drawing = page.getByRole('img', { name: histogramWords(played.estimate.histogram) });
    await expect.element(drawing).toBeVisible();
    await text('played-keep').click();
    expect(rigs.kept).toMatchObject([{ method: 'from playing' }]);
    expect(rigs.kept[0]!.deviceOffsetMs).toBeCloseTo(5, 0);
  });

  it.each([
    ['asks for once more', playedOffsets(50), 'repeat'],
    ['refuses', playedOffsets().slice(0, 12), 'refused'],
  ])('%s, and shows why', async (_, offsets, outcome) => {
    const { played } = await open();
    played.phase = 'done';
    played.estimate = tapEstimate(offsets, 600);
    expect(played.estimate.outcome).toBe(outcome);
    await expect.element(text('played-state')).toHaveTextContent(playingWords(played));
    await expect.element(text('histogram')).toBeVisible();
    await expect.element(text('played-begin')).toBeEnabled();
    expect(text('played-keep').query()).toBeNull();
  });
});

describe('measuring by microphone', () => {
  it('says beforehand what becomes of the recording', async () => {
    const { microphone } = (await mountShell('#kit/offset')).calibration;
    await expect.element(text('recording-promise')).toBeVisible();
    microphone.phase = 'recording';
    await expect.element(text('recording-promise')).not.toBeInTheDocument();
  });

  it('tells each state, and what stands in the way', async () => {
    const { microphone, rigs } = (await mountShell('#kit/offset')).calibration;
    const state = text('microphone-state');
    await text('microphone-begin').click();
    expect(microphone.phase).toBe('asking');
    await expect.element(state).toHaveTextContent(microphoneWords(microphone));
    expect(text('microphone-begin').query()).toBeNull();
    microphone.phase = 'recording';
    microphone.clicked = 12;
    await expect.element(state).toHaveTextContent(microphoneWords(microphone));
    await expect.element(page.getByRole('progressbar')).toHaveProperty('value', 12);
    microphone.phase = 'analysing';
    await expect.element(state).toHaveTextContent(microphoneWords(microphone));
    microphone.phase = 'idle';
    microphone.problem = 'Problem.';
    await expect.element(state).toHaveTextContent('Problem.');
    await expect.element(text('microphone-begin')).toBeEnabled();
    microphone.problem = undefined;
    microphone.phase = 'done';
    microphone.outcome = { outcome: 'refused', why: 'too quiet', sentence: 'Refused.' };
    await expect.element(state).toHaveTextContent('Refused.');
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
    await expect.element(text('microphone-figures')).toHaveTextContent(/\b31\b.*\b40\b/);
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
  it('refuses nonsense and keeps a number', async () => {
    const { rigs } = (await mountShell('#kit/offset')).calibration;
    await page.getByLabelText('by hand').click();
    const field = text('method').getByRole('spinbutton');
    await expect.element(field).toHaveAccessibleDescription(/\S/);
    const keep = text('method').getByRole('button');
    await keep.click();
    await field.fill('4000');
    await keep.click();
    await expect.element(field).toHaveAttribute('aria-invalid', 'true');
    await expect.element(field).toHaveAccessibleDescription(/1000/);
    expect(rigs.kept).toEqual([]);
    await field.fill('1000.5');
    await keep.click();
    expect(rigs.kept).toEqual([]);
    await field.fill('-12.5');
    await keep.click();
    await field.fill('');
    await keep.click();
    expect(rigs.kept).toEqual([{ deviceOffsetMs: -12.5, method: 'by hand' }]);
    await field.fill('-1000');
    await keep.click();
    expect(rigs.kept.at(-1)).toEqual({ deviceOffsetMs: -1000, method: 'by hand' });
    await field.fill('-12.5');
    await keep.click();
    await expect.element(text('rig-offset')).toHaveTextContent('−1');
  });
});

describe('the line on the practise screen', () => {
  it('tells the offset in force, only while the kit plays', async () => {
    const { calibration, inputs } = await mountShell('#practise');
    await expect.element(text('rig-line')).toHaveTextContent(offsetLine(undefined));
    calibration.rigs.profile = MEASURED;
    await expect.element(text('rig-line')).toHaveTextContent(offsetLine(MEASURED));
    inputs.choosePlayer('simulated player');
    await expect.poll(() => text('rig-line').query()).toBeNull();
  });

  it('tells over every screen when the output has changed', async () => {
    const { calibration } = await mountShell('#phrases');
    calibration.rigs.notices = ['Changed.'];
    await expect.element(text('notice')).toHaveTextContent('Changed.');
  });
});
