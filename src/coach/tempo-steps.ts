/** How a tempo goes from a start to a goal, beats a minute. */
export interface TempoSteps {
  readonly start: number;
  /** May be the slower of the two. */
  readonly goal: number;
  /** The first step, above 0. */
  readonly by: number;
  /** How much larger every step is than the one before; negative where they shrink. */
  readonly growBy: number;
}

/**
 * The tempi from start to goal, both with them. No step is smaller than one beat a minute, and the last one ends at the goal.
 *
 * @example tempoSteps({ start: 80, goal: 100, by: 8, growBy: -2 }) // => [80, 88, 94, 98, 100]
 */
export function tempoSteps({ start, goal, by, growBy }: TempoSteps): number[] {
  const direction = Math.sign(goal - start);
  const tempi = [start];
  for (let step = by; tempi.at(-1) !== goal; step += growBy) {
    const next = tempi.at(-1)! + direction * Math.max(1, step);
    tempi.push((goal - next) * direction > 0 ? next : goal);
  }
  return tempi;
}
