import { isHand } from '../model/limb';
import type { TimelineNote } from '../layers/timeline';
import type { HazardWatch } from './hazard';
import { isFootVoice } from './places';

/** What no tempo makes playable: a limb wanted twice, a hand with grace and main note, a voice of the wrong limb. */
export function watchAtOnce(notes: readonly TimelineNote[], watch: HazardWatch): void {
  for (let i = 0; i < notes.length; i++) {
    const note = notes[i]!;
    const { limb, beat } = note;
    if (isHand(limb) === isFootVoice(note.voice) && watch.isAbove(0))
      watch.add(isHand(limb) ? 'HAND_ON_FOOT_VOICE' : 'FOOT_ON_HAND_VOICE', limb, 0, [note]);
    for (let j = i + 1; j < notes.length && notes[j]!.beat === beat; j++) {
      const other = notes[j]!;
      if (other.limb !== limb) continue;
      const graces = (note.graceStep > 0 ? 1 : 0) + (other.graceStep > 0 ? 1 : 0);
      if (graces < 2 && watch.isAbove(0))
        watch.add(graces === 0 ? 'LIMB_TWICE' : 'GRACE_AND_MAIN', limb, 0, [note, other]);
    }
  }
}
