/** Pulses looked for: a little under 60 ms, five times a usual spread, to two beats and a half at 60. Chosen. */
const SHORTEST_US = 58_000;
export const LONGEST_US = 2_500_000;
/** Step from one period to the next, so small that a window's ends stay in step. */
const STEP = 1.003;
/** Windows so short that no player drifts out of step in one. Chosen, not measured. */
const WINDOW_US = 4_000_000;
/** The grid of 397 of 400 simulated phrases, or a part of it, is among so many. */
const CANDIDATES = 8;

interface Candidate {
  readonly periodUs: number;
  readonly strength: number;
}

/**
 * Periods that keep more strokes in step than those next to them, the most in step first: the mean squared length of
 * the phase vectors over short windows (the periodogram of a point process, Bartlett, J. R. Stat. Soc. B 25, 1963).
 * Times in microseconds, ascending.
 */
export function pulseCandidates(timesUs: readonly number[]): number[] {
  const tried: Candidate[] = [];
  for (let periodUs = SHORTEST_US; periodUs <= LONGEST_US; periodUs *= STEP)
    tried.push({ periodUs, strength: inStep(timesUs, periodUs) });
  return tried
    .filter(
      ({ strength }, i) =>
        strength >= (tried[i - 1]?.strength ?? -1) && strength > (tried[i + 1]?.strength ?? -1),
    )
    .sort((a, b) => b.strength - a.strength)
    .slice(0, CANDIDATES)
    .map((peak) => sharpen(peak, timesUs));
}

function sharpen(peak: Candidate, times: readonly number[]): number {
  let best = peak;
  for (let shift = -4; shift <= 4; shift++) {
    const periodUs = peak.periodUs * STEP ** (shift / 8);
    const strength = inStep(times, periodUs);
    if (strength > best.strength) best = { periodUs, strength };
  }
  return best.periodUs;
}

/** Mean over windows of the unbiased squared phase coherence, by the strokes in them. */
function inStep(times: readonly number[], periodUs: number): number {
  let sum = 0;
  let weight = 0;
  let from = 0;
  while (from < times.length) {
    let x = 0;
    let y = 0;
    let n = 0;
    const end = times[from]! + WINDOW_US;
    while (from < times.length && times[from]! < end) {
      const angle = (2 * Math.PI * times[from]!) / periodUs;
      x += Math.cos(angle);
      y += Math.sin(angle);
      n++;
      from++;
    }
    if (n < 3) continue;
    sum += (x * x + y * y - n) / (n - 1);
    weight += n;
  }
  return weight === 0 ? 0 : sum / weight;
}
