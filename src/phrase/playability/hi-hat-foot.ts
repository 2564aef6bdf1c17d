import type { TimedNote } from '../timeline';
import { tempoFor, type Hazard } from './hazard';
import { SUSTAINED_PER_SECOND } from './rates';

/** Pressing or lifting is half of a foot's stroke, at the rate a limb keeps up. */
const HALF_STROKE_SECONDS = 1 / (2 * SUSTAINED_PER_SECOND);

/** What a note wants of the left foot on the hi-hat. */
type Wanted = 'up' | 'down' | 'press' | 'splash' | 'away';

function wanted({ voice, limb }: TimedNote): Wanted | undefined {
  if (voice === 'hi-hat open') return 'up';
  if (voice === 'hi-hat closed') return 'down';
  if (voice === 'hi-hat pedal') return 'press';
  if (voice === 'hi-hat foot splash') return 'splash';
  return limb === 'F' ? 'away' : undefined;
}

const leavesDown = (wanted: Wanted): boolean => wanted === 'down' || wanted === 'press';

/** Presses and lifts that the foot needs between two notes. */
function halfStrokes(from: Wanted, to: Wanted): number {
  if (to === 'press' || to === 'splash') return leavesDown(from) ? 2 : 1;
  return leavesDown(from) === leavesDown(to) ? 0 : 1;
}

/** What cannot sound together: the pedal is in one place at a time. */
const CLASHES = new Set(['up down', 'up press', 'down splash', 'down away']);
const clash = (a: Wanted, b: Wanted): boolean =>
  CLASHES.has(`${a} ${b}`) || CLASHES.has(`${b} ${a}`);

/** Where the hi-hat would have to open or close faster than the left foot can, or be both at once. */
export function hiHatHazards(notes: readonly TimedNote[]): Hazard[] {
  const onHiHat = notes.flatMap((note) => {
    const want = wanted(note);
    return want === undefined ? [] : [{ note, want }];
  });
  const hazards: Hazard[] = [];
  const add = (found: readonly TimedNote[], aboveBpm: number) =>
    hazards.push({ code: 'HI_HAT_FOOT', limb: 'F', notes: found, aboveBpm });
  onHiHat.forEach(({ note, want }, i) => {
    let j = i + 1;
    for (; onHiHat[j]?.note.beat === note.beat; j++)
      if (clash(want, onHiHat[j]!.want)) add([note, onHiHat[j]!.note], 0);
    const next = onHiHat[j];
    if (!next) return;
    const halves = halfStrokes(want, next.want);
    if (halves > 0)
      add([note, next.note], tempoFor(next.note.beat - note.beat, halves * HALF_STROKE_SECONDS));
  });
  return hazards;
}
