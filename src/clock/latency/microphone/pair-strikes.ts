/** A strike in the recording and the MIDI stamp that tells of it. */
export interface StrikePair {
  /** When it was struck, by the clicks around it: performance time, ms, at which a click heard with it is due. */
  readonly struckMs: number;
  readonly stampMs: number;
}

/**
 * A stamp is late against the click by what the map does not know of the output's delay and by what the kit takes:
 * together from this to this, ms. Chosen, not measured.
 */
const FROM_MS = -100;
const TO_MS = 600;
/** Stamps wander against the sound by up to this to each side, ms: the interval of a radio link. */
const WANDER_MS = 8;
/** A second delay that would pair this share as many leaves both in doubt. Chosen, not measured. */
const RIVAL_SHARE = 0.7;

/**
 * Which strike belongs to which stamp. All stamps are late by about the same, so the delay is taken that pairs
 * most; every strike and every stamp is used once. Empty when two different delays pair about as many.
 *
 * @param struckMs ascending. @param stampsMs ascending.
 */
export function pairStrikes(
  struckMs: readonly number[],
  stampsMs: readonly number[],
): readonly StrikePair[] {
  const delays = struckMs
    .flatMap((struck) => stampsMs.map((stamp) => stamp - struck))
    .filter((delay) => delay >= FROM_MS && delay <= TO_MS)
    .sort((a, b) => a - b);
  const best = densest(delays);
  if (!best) return [];
  const rival = densest(delays.filter((delay) => Math.abs(delay - best.delayMs) > 4 * WANDER_MS));
  if (rival && rival.count >= RIVAL_SHARE * best.count) return [];
  const pairs: StrikePair[] = [];
  let next = 0;
  for (const struck of struckMs) {
    while (next < stampsMs.length && stampsMs[next]! - struck < best.delayMs - WANDER_MS) next++;
    const stampMs = stampsMs[next];
    if (stampMs === undefined || stampMs - struck > best.delayMs + WANDER_MS) continue;
    pairs.push({ struckMs: struck, stampMs });
    next++;
  }
  return pairs;
}

/** The middle of the stretch of two WANDER_MS that holds most of the ascending delays. */
function densest(delays: readonly number[]): { delayMs: number; count: number } | undefined {
  let best: { delayMs: number; count: number } | undefined;
  let from = 0;
  delays.forEach((delay, to) => {
    while (delay - delays[from]! > 2 * WANDER_MS) from++;
    const count = to - from + 1;
    if (!best || count > best.count) best = { delayMs: delays[(from + to) >> 1]!, count };
  });
  return best;
}
