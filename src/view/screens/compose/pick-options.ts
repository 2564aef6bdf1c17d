import { LEVELS } from '../../../phrase/model/level';
import { limbName, LIMBS } from '../../../phrase/model/limb';
import { VOICES } from '../../../phrase/model/voice';

/** The words to choose from, each under its value. */
const named = <T extends string>(values: readonly T[], name: (value: T) => string = (v) => v) =>
  values.map((value) => ({ value, name: name(value) }));

export const LIMB_OPTIONS = named(LIMBS, limbName);
export const VOICE_OPTIONS = named(VOICES);
export const LEVEL_OPTIONS = named(LEVELS);
export const GRACE_OPTIONS = [
  { value: 'flam', name: 'a flam' },
  { value: 'drag', name: 'a drag' },
  { value: 'none', name: 'no grace notes' },
] as const;
