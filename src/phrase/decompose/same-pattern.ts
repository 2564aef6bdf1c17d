import { lcm } from '../../time/whole';
import { parseSwing, straightOr } from '../model/swing';
import type { PatternStroke, TargetPattern } from './target-pattern';

/** Whether two patterns sound the same for ever: every note and grace note, the pickup, the grid; of phrases soundsSame says so. */
export function samePattern(a: TargetPattern, b: TargetPattern): boolean {
  const partials = lcm(a.cyclePartials, b.cyclePartials);
  return (
    a.meter === b.meter &&
    a.subdivision === b.subdivision &&
    a.tempoBpm === b.tempoBpm &&
    swingOf(a).equals(swingOf(b)) &&
    (a.displace ?? 0) === (b.displace ?? 0) &&
    sameLines(pickupLines(a), pickupLines(b)) &&
    sameLines(patternLines(a, partials), patternLines(b, partials))
  );
}

const swingOf = ({ swing }: TargetPattern) =>
  straightOr(swing === undefined ? undefined : parseSwing(swing));

const sameLines = (a: ReadonlySet<string>, b: ReadonlySet<string>): boolean =>
  a.size === b.size && [...a].every((line) => b.has(line));

const pickupLines = ({ pickup }: TargetPattern): Set<string> =>
  new Set(pickup.map((stroke) => `${stroke.partialsBefore} ${strokeLine(stroke)}`));

/** Every note of so many partials, one line each. */
export const patternLines = (
  { notes, cyclePartials }: TargetPattern,
  partials: number,
): Set<string> =>
  new Set(
    notes.flatMap((note) => {
      const line = strokeLine(note);
      return Array.from(
        { length: partials / cyclePartials },
        (_, i) => `${note.partial + i * cyclePartials} ${line}`,
      );
    }),
  );

function strokeLine({ limb, voice, level, graces = [], graceSounds }: PatternStroke): string {
  const each = graces.map((hand, i) => {
    const sound = graceSounds ? graceSounds[i] : { voice, level: 'tap' };
    return sound ? `${hand} ${sound.voice} ${sound.level}` : 'rest';
  });
  return [`${limb} ${voice} ${level}`, ...each].join(', ');
}
