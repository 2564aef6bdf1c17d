import type { TimelineNote } from '../layers/timeline';
import { tempoFor, type HazardWatch } from './hazard';
import { SUSTAINED_PER_SECOND } from './rates';

/** Pressing or lifting is half of a foot's stroke, at the rate a limb keeps up. */
const HALF_STROKE_SECONDS = 1 / (2 * SUSTAINED_PER_SECOND);

/** What a note wants of the left foot on the hi-hat. */
type Wanted = 'up' | 'down' | 'press' | 'splash' | 'away';

function wanted({ voice, limb }: TimelineNote): Wanted | undefined {
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
const CLASHES: Readonly<Partial<Record<Wanted, readonly Wanted[]>>> = {
  up: ['down', 'press'],
  down: ['splash', 'away'],
};
const clash = (a: Wanted, b: Wanted): boolean =>
  CLASHES[a]?.includes(b) === true || CLASHES[b]?.includes(a) === true;

/** Where the hi-hat would have to open or close faster than the left foot can, or be both at once. */
export function watchHiHatFoot(notes: readonly TimelineNote[], watch: HazardWatch): void {
  const onHiHat = notes.filter((note) => wanted(note) !== undefined);
  const wants = onHiHat.map((note) => wanted(note)!);
  for (let i = 0; i < onHiHat.length; i++) {
    const note = onHiHat[i]!;
    let j = i + 1;
    for (; j < onHiHat.length && onHiHat[j]!.beat === note.beat; j++)
      if (clash(wants[i]!, wants[j]!) && watch.isAbove(0))
        watch.add('HI_HAT_FOOT', 'F', 0, [note, onHiHat[j]!]);
    if (j === onHiHat.length) continue;
    const next = onHiHat[j]!;
    const halves = halfStrokes(wants[i]!, wants[j]!);
    if (halves === 0) continue;
    const limit = tempoFor(next.beat - note.beat, halves * HALF_STROKE_SECONDS);
    if (watch.isAbove(limit)) watch.add('HI_HAT_FOOT', 'F', limit, [note, next]);
  }
}
