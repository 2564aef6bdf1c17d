import type { Voice } from '../../phrase/model/voice';
import type { HiHatOpening, Kit, Pad } from '../kit';
import { padVoices } from '../pad-voices';
import { hiHatPedal, OPENING_CONTROLLER, type HiHatPedal } from './hi-hat-pedal';
import { strikeOf, type KitLearning } from './learn';
import type { LearnStep } from './learn-steps';

export interface LearnedKit {
  readonly kit: Kit;
  /** Voices that were asked for so far and are on the kit, and those that are not. */
  readonly has: readonly Voice[];
  readonly lacks: readonly Voice[];
  /** What the player should know about the kit, one sentence each. */
  readonly remarks: readonly string[];
}

const USUAL_OPENING: HiHatOpening = {
  controller: OPENING_CONTROLLER,
  highMeans: 'closed',
  openFrom: 0.5,
};

/**
 * The kit that was heard, and what the player should know; undefined before anything was struck.
 *
 * @param inUse the kit that is read so far, to say what is reversed.
 * @example learnedKit(hear(startLearning(), 0, 0x99, 36, 90), 'Mine')?.kit.pads[0]?.voice // => 'bass drum'
 */
export function learnedKit(
  learning: KitLearning,
  title: string,
  inUse?: Kit,
): LearnedKit | undefined {
  const remarks: string[] = [];
  const pads: Pad[] = [];
  const pedal = pedalOf(learning, inUse);
  const following = followingNotes(learning, inUse);
  learning.steps.forEach((step, i) => {
    const strike = learning.heard[i];
    if (!strike) return;
    const earlier = pads.find(({ note }) => note === strike.note);
    if (earlier) {
      const isLastAgain = learning.heard[i - 1]?.note === strike.note;
      if (!step.zone && (step.group === earlier.group || !isLastAgain))
        remarks.push(sameNote(step, earlier));
      return;
    }
    const { name, voice, group } = step;
    const follows = following.has(strike.note) && step.zone !== undefined;
    pads.push({
      note: strike.note,
      name,
      voice,
      group,
      ...(follows ? { followsOpening: true } : {}),
    });
  });
  if (pads.length === 0) return undefined;
  const kit = { title, pads, opening: pedal?.opening ?? USUAL_OPENING };
  const asked = new Set(learning.steps.slice(0, learning.step).map(({ voice }) => voice));
  const voices = new Set(pads.flatMap(padVoices));
  const has = [...asked].filter((voice) => voices.has(voice));
  const lacks = [...asked].filter((voice) => !voices.has(voice));
  return { kit, has, lacks, remarks: [...remarks, ...(pedal?.remarks ?? [])] };
}

/** What the hi-hat tells by its bow, or by its edge where the bow was not struck both ways. */
function pedalOf(learning: KitLearning, inUse: Kit | undefined): HiHatPedal | undefined {
  const zones = (['bow', 'edge'] as const).map((zone) => pedalOfZone(learning, zone, inUse));
  return zones.find((pedal) => pedal?.opening) ?? zones.find((pedal) => pedal);
}

function pedalOfZone(learning: KitLearning, zone: LearnStep['zone'], inUse: Kit | undefined) {
  const closed = strikeOf(learning, 'hi-hat closed', zone);
  const open = strikeOf(learning, 'hi-hat open', zone);
  return closed && open && hiHatPedal({ closed, open }, inUse);
}

/** Notes that leave open or closed to the controller. */
function followingNotes(learning: KitLearning, inUse: Kit | undefined): ReadonlySet<number> {
  const notes = new Set<number>();
  for (const zone of ['bow', 'edge'] as const)
    if (pedalOfZone(learning, zone, inUse)?.tells === 'controller')
      notes.add(strikeOf(learning, 'hi-hat closed', zone)!.note);
  return notes;
}

function sameNote(step: LearnStep, earlier: Pad): string {
  const both = `"${step.name}" sends the same note ${earlier.note} as "${earlier.name}"`;
  return step.voice === earlier.voice
    ? `${both}: the two count as one.`
    : `${both}: the kit does not tell them apart, and both count as ${earlier.voice}. If its settings allow, give one of them another note.`;
}
