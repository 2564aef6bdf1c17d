import { isHand } from '../limb';
import type { TimedNote } from '../timeline';
import type { Hazard } from './hazard';
import { isFootVoice } from './places';

/** What no tempo makes playable: a limb wanted twice, a hand with grace and main note, a voice of the wrong limb. */
export function impossibleHazards(notes: readonly TimedNote[]): Hazard[] {
  const hazards: Hazard[] = [];
  const add = (code: Hazard['code'], ...found: TimedNote[]) =>
    hazards.push({ code, limb: found[0]!.limb, notes: found, aboveBpm: 0 });
  notes.forEach((note, i) => {
    if (isHand(note.limb) === isFootVoice(note.voice))
      add(isHand(note.limb) ? 'HAND_ON_FOOT_VOICE' : 'FOOT_ON_HAND_VOICE', note);
    for (let j = i + 1; notes[j]?.beat === note.beat; j++) {
      const other = notes[j]!;
      if (other.limb !== note.limb) continue;
      const graces = [note, other].filter(({ graceStep }) => graceStep > 0).length;
      if (graces === 0) add('LIMB_TWICE', note, other);
      if (graces === 1) add('GRACE_AND_MAIN', note, other);
    }
  });
  return hazards;
}
