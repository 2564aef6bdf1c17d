import type { Voice } from '../../phrase/model/voice';
import type { Kit, Pad } from '../kit';
import { hiHatPedal, type HiHatPedal } from './hi-hat-pedal';
import { strikeOf, type KitLearning } from './learn';
import type { LearnStep } from './learn-steps';

/** What one stroke on each of some pads says about the kit in use. */
export interface StruckKit {
  /** The kit in use, with what was struck put right; the same one where nothing was wrong. */
  readonly kit: Kit;
  /** Voices that were asked for and struck, and those that were not or cannot be told from an earlier one. */
  readonly has: readonly Voice[];
  readonly lacks: readonly Voice[];
  readonly pedal: HiHatPedal | undefined;
  /** What the player should know, one sentence each. */
  readonly remarks: readonly string[];
}

/**
 * The kit in use after some of its pads were struck. A note that stands for what was asked stays as it is, with its name
 * and levels; another one is put right. A pad that answered before is no other pad: striking it again says that the kit
 * has none.
 *
 * @param struckBefore voices whose pads answered at another time: their notes are no other pads either.
 * @example struckKit(hear(startLearning(stepsFor(['cowbell'])), 0, 0x99, 56, 90), GENERAL_MIDI).has // => ['cowbell']
 */
export function struckKit(
  learning: KitLearning,
  inUse: Kit,
  struckBefore: readonly Voice[] = [],
): StruckKit {
  const closed = strikeOf(learning, 'hi-hat closed');
  const open = strikeOf(learning, 'hi-hat open');
  const pedal = closed && open && hiHatPedal({ closed, open }, inUse);
  const has: Voice[] = [];
  const lacks: Voice[] = [];
  const taken = new Set<number>();
  const isTaken = (note: number, asked: Voice) => {
    const voice = inUse.pads.find((pad) => pad.note === note)?.voice;
    return (
      taken.has(note) || (voice !== undefined && voice !== asked && struckBefore.includes(voice))
    );
  };
  let { pads } = inUse;
  learning.steps.forEach((step, i) => {
    if (i >= learning.step) return;
    const note = learning.heard[i]?.note;
    const isOpening = step.voice === 'hi-hat open' && pedal?.tells === 'controller';
    if (note === undefined || (isTaken(note, step.voice) && !isOpening)) {
      lacks.push(step.voice);
      return;
    }
    taken.add(note);
    has.push(step.voice);
    if (!isOpening) pads = withVoice(pads, note, step);
  });
  if (pedal?.tells === 'notes' && pedal.isReversed) pads = otherZonesTurned(pads, inUse, taken);
  if (pedal) pads = withFollowing(pads, closed.note, pedal);
  const opening = pedal?.opening ?? inUse.opening;
  const isSame = pads === inUse.pads && (!pedal || !changesOpening(pedal, inUse));
  const kit = isSame ? inUse : { ...inUse, pads, opening };
  return { kit, has, lacks, pedal, remarks: pedal?.remarks ?? [] };
}

/** The same pads where the note stands for the voice already. */
function withVoice(pads: readonly Pad[], note: number, step: LearnStep): readonly Pad[] {
  const pad = pads.find((one) => one.note === note);
  if (pad?.voice === step.voice) return pads;
  const { name, voice, group } = step;
  const put: Pad = { note, name, voice, group };
  return pad ? pads.map((one) => (one === pad ? put : one)) : [...pads, put];
}

/** A pedal that turns the bow's notes round turns the edge's round too. */
function otherZonesTurned(
  pads: readonly Pad[],
  inUse: Kit,
  struck: ReadonlySet<number>,
): readonly Pad[] {
  const turned: Partial<Record<Voice, Voice>> = {
    'hi-hat closed': 'hi-hat open',
    'hi-hat open': 'hi-hat closed',
  };
  const nameOf = (voice: Voice) =>
    inUse.pads.find((pad) => pad.voice === voice && !struck.has(pad.note))?.name;
  return pads.map((pad) => {
    const voice = struck.has(pad.note) ? undefined : turned[pad.voice];
    return voice ? { ...pad, voice, name: nameOf(voice) ?? pad.name } : pad;
  });
}

/** Lets the hi-hat's one note follow the controller, or no more where it does not tell. */
function withFollowing(pads: readonly Pad[], note: number, { tells }: HiHatPedal): readonly Pad[] {
  const follows = tells === 'controller';
  const pad = pads.find((one) => one.note === note);
  if (!pad || (pad.followsOpening ?? false) === follows) return pads;
  return pads.map((one) => (one === pad ? { ...pad, followsOpening: follows } : one));
}

/** Whether the controller is to be read otherwise: another end, or a note that now depends on where the middle is. */
const changesOpening = ({ opening, tells }: HiHatPedal, inUse: Kit): boolean =>
  opening !== undefined &&
  (opening.highMeans !== inUse.opening.highMeans ||
    (tells === 'controller' && opening.openFrom !== inUse.opening.openFrom));
