import { divisors } from '../../time/whole';
import type { TargetPattern } from './target-pattern';
import { patternLines } from './same-pattern';

/** The same notes with a start before bar 1 by less than the notes take to repeat. */
export function leastDisplacement(pattern: TargetPattern): TargetPattern {
  const { displace = 0, ...rest } = pattern;
  if (displace >= 0) return pattern;
  const least = displace % repeatsAfter(pattern);
  return least === 0 ? rest : { ...rest, displace: least };
}

/** Partials after which all notes are the same again: the whole pattern or an even part of it. */
function repeatsAfter(pattern: TargetPattern): number {
  const { notes, cyclePartials } = pattern;
  const lines = patternLines(pattern, cyclePartials);
  return divisors(cyclePartials).find((partials) => {
    const moved = notes.map((note) => ({
      ...note,
      partial: (note.partial + partials) % cyclePartials,
    }));
    const movedLines = patternLines({ ...pattern, notes: moved }, cyclePartials);
    return [...movedLines].every((line) => lines.has(line));
  })!;
}
