/**
 * After how many steps of a cycle its steps are the same again, until its end cuts them; their number when they never are.
 *
 * @example repeatLength(['R', 'L', 'R', 'L', 'R']) // => 2
 */
export function repeatLength(steps: readonly string[]): number {
  let length = 1;
  while (steps.some((step, i) => step !== steps[i % length])) length++;
  return length;
}
