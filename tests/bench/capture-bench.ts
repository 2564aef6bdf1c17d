import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { playRounds, randomPlayings, recover } from '../capture/played-rounds';
import { transcribed } from '../capture/transcribed';
import { libraryPhrases } from '../phrase/library-phrases';
import { duration, p50, p95, timed, type BenchRow } from './bench-row';

/** What is asked: so much of the phrases written down as they were. */
export const RECOVERED_FROM = 0.95;
const SEED = 1907;
/** Looked at once, after everything was chosen. */
const UNSEEN_SEED = 9101;
const TWO_MINUTES_US = 120e6;

/** Shares of `count` seeded random phrases that capture got right, and of the wrong ones that it was not sure of. */
export function recoveredShares(count: number, seed = SEED) {
  const recovered = randomPlayings(count, seed).map((playing) => recover(playing));
  const share = (got: 'cycle' | 'places' | 'voices' | 'levels' | 'all') =>
    recovered.filter((one) => one[got]).length / recovered.length;
  const wrong = recovered.filter(({ all }) => !all);
  return {
    places: share('places'),
    cycle: share('cycle'),
    voices: share('voices'),
    levels: share('levels'),
    all: share('all'),
    wrong: wrong.length,
    wrongNotSure: wrong.filter(({ sure }) => !sure).length,
  };
}

/** A library phrase played for two minutes, captured with and without the click. */
export function captureRows(count: number): BenchRow[] {
  const shares = recoveredShares(count);
  const unseen = recoveredShares(count, UNSEEN_SEED);
  const percent = (share: number) => `${(share * 100).toFixed(1)} %`;
  const note = `Of ${count} random phrases (seed ${SEED}) right: places ${percent(shares.places)}, cycle ${percent(shares.cycle)}, voices ${percent(shares.voices)}, levels ${percent(shares.levels)}; not sure of ${shares.wrongNotSure} of the ${shares.wrong} wrong ones. On seed ${UNSEEN_SEED}, which nothing was tuned on: ${percent(unseen.all)}, not sure of ${unseen.wrongNotSure} of the ${unseen.wrong} wrong ones.`;
  const asserted = `${percent(shares.all)} of ${count} phrases as played`;
  const parsed = parsePhrase(libraryPhrases()[0]!.text);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  const playing = {
    phrase: parsed.value,
    layer: parsed.value.layers.length,
    tempoBpm: 96,
    seed: 1,
  };
  const strokes = playRounds(playing);
  const length = strokes.at(-1)!.timeUs + 1;
  const long = Array.from({ length: Math.ceil(TWO_MINUTES_US / length) }, (_, k) =>
    strokes.map((stroke) => ({ ...stroke, timeUs: stroke.timeUs + k * length })),
  ).flat();
  return [96, undefined].map((clickBpm) => {
    const times = timed(20, () => transcribed(long, { clickBpm }));
    return {
      name: `capture of two minutes, ${clickBpm === undefined ? 'no click' : 'click'}`,
      asserted,
      p50: duration(p50(times)),
      tail: `p95 ${duration(p95(times))}`,
      aim: `p95 < 1 s, ${RECOVERED_FROM * 100} % right`,
      met: p95(times) < 1000 && shares.all >= RECOVERED_FROM,
      note,
    };
  });
}
