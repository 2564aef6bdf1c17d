import { median } from 'simple-statistics';
import { firstFrom } from '../../../time/first-from';
import { FEWEST_VALUES, hodgesLehmann } from '../hodges-lehmann';
import { robustSpread } from '../../../score/statistics/spread';
import { countOf } from '../../../words/words';
import { findClicks, LATEST_MS, LEAST_PEAK_DB, type ClickOnset } from './find-clicks';
import { findStrikes } from './find-strikes';
import { pairStrikes } from './pair-strikes';
import type { PlayedClicks, Recording } from './recording';

/**
 * The device's part of every offset, measured with a loudspeaker and one microphone: the page plays
 * clicks, the player strikes a pad beside the microphone, in between the clicks. The microphone's own
 * delay is in both and falls out:
 *
 *   device offset = strike's MIDI stamp − time by the map of a click that would be heard together with it
 *
 * A stroke that falls exactly on the click as heard is stamped so much after the click's due time:
 * the output's delay that the map does not know of, plus what the kit and its cable take. Subtracted
 * from every offset it puts the hit window where the click is heard. How evenly the player plays does
 * not matter. Sound takes 2.9 ms a metre: the loudspeaker, the pad and the microphone belong together.
 */
export type MicrophoneOutcome =
  | ({ readonly outcome: 'measured' } & MicrophoneMeasurement)
  | {
      readonly outcome: 'refused';
      readonly why: MicrophoneRefusal;
      readonly sentence: string;
    };

export interface MicrophoneMeasurement {
  readonly deviceOffsetMs: number;
  /** 95 % or more: the scatter of stamps against the clicks beside them, and BEGINNING_MS for where a strike begins. */
  readonly lowerMs: number;
  readonly upperMs: number;
  /** Standard deviation of single stamps against what was heard, robustly, ms: the jitter of MIDI. */
  readonly spreadMs: number;
  /** Strikes and clicks behind it. */
  readonly strokes: number;
  readonly clicks: number;
  /** How far the clicks stand out, dB. */
  readonly peakDb: number;
}

export type MicrophoneRefusal =
  'clicks not found' | 'wrong sample rate' | 'pads not heard' | 'too few pairs' | 'midi jitter';

/** Chosen, not measured: the interval of 12 is 0.6 of a standard deviation to each side. */
const FEWEST_PAIRS = 12;
/** A radio link of 15 ms has 4.3 ms (15/√12), a cable with USB at most 1 ms. Chosen, not measured. */
const MOST_JITTER_MS = 3;
/** The rise of a strike has no one beginning: so much to each side is added. Chosen, not measured. */
const BEGINNING_MS = 0.5;
/** A click and its first echo cover strikes for this long after its own length, ms. Chosen, not measured. */
const ECHO_MS = 60;
const BEFORE_CLICK_MS = 5;
/** So many clicks tell how late a stroke beside them was recorded. Chosen, not measured. */
const NEAREST_CLICKS = 4;
const OTHER_RATES = [44_100, 48_000, 88_200, 96_000, 32_000, 24_000, 22_050, 16_000];

/**
 * @param stampsMs MIDI time stamps of the strokes, performance clock, ms, ascending.
 * @throws RangeError when the clicks are nearer than LATEST_MS.
 */
export function measureOffset(
  recording: Recording,
  clicks: PlayedClicks,
  stampsMs: readonly number[],
): MicrophoneOutcome {
  if (clicks.atSeconds.some((at, k) => at - (clicks.atSeconds[k - 1] ?? -1) < LATEST_MS / 1000))
    throw new RangeError(`clicks to measure by must be ${LATEST_MS} ms apart`);
  const found = findClicks(recording, clicks);
  if (!found || found.peakDb < LEAST_PEAK_DB) return clicksNotFound(recording, clicks);
  const clear = found.clicks.filter(({ hidden }) => !hidden).length;
  if (clear < FEWEST_VALUES)
    return refused(
      'clicks not found',
      `Only ${countOf(clear, 'click')} can be told from the rest of the recording; turn the loudspeaker up.`,
    );
  const { sampleRate } = recording;
  const length = clicks.samplesAt(sampleRate).length;
  const strikes = findStrikes(
    recording.samples,
    sampleRate,
    masksOf(found.clicks, sampleRate, length),
  );
  if (strikes.length < FEWEST_PAIRS)
    return refused(
      'pads not heard',
      `Only ${countOf(strikes.length, 'stroke')} can be heard in the recording; lay the microphone beside the pad, strike harder, and strike in between the clicks.`,
    );
  const strikesMs = strikes
    .map((place) => struckSeconds(found.clicks, place, sampleRate))
    .filter((seconds) => seconds !== undefined)
    .map((seconds) => recording.performanceMsAt(seconds))
    .sort((a, b) => a - b);
  const pairs = pairStrikes(strikesMs, stampsMs);
  if (pairs.length < FEWEST_PAIRS)
    return refused(
      'too few pairs',
      `Of ${strikes.length} strokes heard and ${stampsMs.length} sent by the kit only ${pairs.length} can be paired; strike one pad only, in between the clicks, ${FEWEST_PAIRS + 8} times or more.`,
    );
  const offsetsMs = pairs.map(({ struckMs, stampMs }) => stampMs - struckMs);
  const spreadMs = robustSpread(offsetsMs)!;
  if (spreadMs > MOST_JITTER_MS)
    return refused(
      'midi jitter',
      `The kit's time stamps scatter by ${spreadMs.toFixed(1)} ms against what was heard; use a cable in place of wireless MIDI, and close what else uses the MIDI port.`,
    );
  const { location, lower, upper } = hodgesLehmann(offsetsMs)!;
  return {
    outcome: 'measured',
    deviceOffsetMs: location,
    lowerMs: lower - BEGINNING_MS,
    upperMs: upper + BEGINNING_MS,
    spreadMs,
    strokes: pairs.length,
    clicks: clear,
    peakDb: found.peakDb,
  };
}

/**
 * Audio time of a click that would be heard together with a strike, seconds, by the nearest clicks: the delays of
 * output and microphone are in both. Undefined between clicks that are not equally late, since nobody knows on
 * which side of the strike sound was lost.
 */
function struckSeconds(
  clicks: readonly ClickOnset[],
  at: number,
  sampleRate: number,
): number | undefined {
  const next = firstFrom(clicks, ({ place }) => place, at);
  const stretches = clicks.slice(Math.max(0, next - 1), next + 1).map(({ stretch }) => stretch);
  if (stretches[0] !== stretches.at(-1)) return undefined;
  const nearest = clicks
    .filter(({ stretch, hidden }) => stretch === stretches[0] && !hidden)
    .sort((a, b) => Math.abs(a.place - at) - Math.abs(b.place - at))
    .slice(0, NEAREST_CLICKS);
  return nearest.length === 0
    ? undefined
    : median(nearest.map(({ atSeconds, place }) => atSeconds + (at - place) / sampleRate));
}

function clicksNotFound(recording: Recording, clicks: PlayedClicks): MicrophoneOutcome {
  const rate = OTHER_RATES.find(
    (sampleRate) =>
      sampleRate !== recording.sampleRate &&
      (findClicks({ ...recording, sampleRate }, clicks)?.peakDb ?? 0) >= LEAST_PEAK_DB,
  );
  return rate === undefined
    ? refused(
        'clicks not found',
        `The page's clicks do not stand out of the recording by ${LEAST_PEAK_DB} dB; turn the loudspeaker up, bring the microphone nearer, and switch off noise suppression.`,
      )
    : refused(
        'wrong sample rate',
        `The recording says ${recording.sampleRate} Hz but runs at ${rate} Hz; set the input and the output of the system to one rate and record again.`,
      );
}

const masksOf = (
  clicks: readonly ClickOnset[],
  sampleRate: number,
  length: number,
): (readonly [number, number])[] =>
  clicks.map(({ place }) => [
    place - (BEFORE_CLICK_MS / 1000) * sampleRate,
    place + length + (ECHO_MS / 1000) * sampleRate,
  ]);

const refused = (why: MicrophoneRefusal, sentence: string): MicrophoneOutcome => ({
  outcome: 'refused',
  why,
  sentence,
});
