import { LEVELS } from '../../../phrase/model/level';
import { limbName, LIMBS } from '../../../phrase/model/limb';
import { VOICES } from '../../../phrase/model/voice';
import { namedOptions } from '../../fields/named-options';
import { withKey } from './with-key';

export const LIMB_OPTIONS = namedOptions(LIMBS, limbName);
export const VOICE_OPTIONS = namedOptions(VOICES);
export const LEVEL_OPTIONS = namedOptions(LEVELS);
export const GRACE_OPTIONS = [
  { value: 'flam', name: 'a flam' },
  { value: 'drag', name: 'a drag' },
  { value: 'none', name: 'no grace notes' },
] as const;

/** What a field that may be left open shows of one key of an object, and how it writes the object with another choice. */
export const pickOf = <T extends object, K extends keyof T>(
  object: T,
  key: K,
  options: readonly { readonly value: NonNullable<T[K]>; readonly name: string }[],
  write: (object: T) => void,
) => ({
  value: object[key] as NonNullable<T[K]> | undefined,
  options,
  choose: (value: T[K] | undefined) => write(withKey(object, key, value)),
});
