/** A strike that was heard and the MIDI stamp that tells of it. */
export interface StrikePair {
  /** Performance time, ms, at which the recording has it. */
  readonly heardMs: number;
  readonly stampMs: number;
}

/**
 * A recording runs behind: by the output's and the microphone's own delay, together at most this, ms.
 * Chosen, not measured; stamps may also come later than the sound by what the kit takes.
 */
const LAG_FROM_MS = -100;
const LAG_TO_MS = 600;
/** Stamps wander against the sound by up to this to each side, ms: the interval of a radio link. */
const WANDER_MS = 8;
/** A second lag that would pair this share as many leaves both in doubt. Chosen, not measured. */
const RIVAL_SHARE = 0.7;

/**
 * Which strike heard belongs to which stamp. All lag by about the same, so the lag is taken that pairs
 * most; every strike and every stamp is used once. Empty when two different lags pair about as many.
 *
 * @param heardMs ascending. @param stampsMs ascending.
 */
export function pairStrikes(
  heardMs: readonly number[],
  stampsMs: readonly number[],
): readonly StrikePair[] {
  const lags = heardMs
    .flatMap((heard) => stampsMs.map((stamp) => heard - stamp))
    .filter((lag) => lag >= LAG_FROM_MS && lag <= LAG_TO_MS)
    .sort((a, b) => a - b);
  const best = densest(lags);
  if (!best) return [];
  const rival = densest(lags.filter((lag) => Math.abs(lag - best.lagMs) > 4 * WANDER_MS));
  if (rival && rival.count >= RIVAL_SHARE * best.count) return [];
  const pairs: StrikePair[] = [];
  let next = 0;
  for (const heard of heardMs) {
    while (next < stampsMs.length && heard - stampsMs[next]! > best.lagMs + WANDER_MS) next++;
    const stampMs = stampsMs[next];
    if (stampMs === undefined || heard - stampMs < best.lagMs - WANDER_MS) continue;
    pairs.push({ heardMs: heard, stampMs });
    next++;
  }
  return pairs;
}

/** The middle of the stretch of two WANDER_MS that holds most of the ascending lags. */
function densest(lags: readonly number[]): { lagMs: number; count: number } | undefined {
  let best: { lagMs: number; count: number } | undefined;
  let from = 0;
  lags.forEach((lag, to) => {
    while (lag - lags[from]! > 2 * WANDER_MS) from++;
    const count = to - from + 1;
    if (!best || count > best.count) best = { lagMs: lags[(from + to) >> 1]!, count };
  });
  return best;
}
