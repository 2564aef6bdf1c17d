import type { Voice } from '../phrase/model/voice';
import type { Kit, Pad } from './kit';

/**
 * The pad to strike for a voice: the first of its own, one that follows the hi-hat's opening, or the pedal for a foot
 * splash; undefined where the kit has none.
 *
 * @example padFor('snare', GENERAL_MIDI)?.note // => 38
 */
export function padFor(voice: Voice, kit: Kit): Pad | undefined {
  const own = kit.pads.find((pad) => pad.voice === voice && pad.followsOpening !== true);
  if (own) return own;
  if (voice === 'hi-hat open' || voice === 'hi-hat closed')
    return kit.pads.find((pad) => pad.followsOpening === true);
  return voice === 'hi-hat foot splash'
    ? kit.pads.find((pad) => pad.voice === 'hi-hat pedal')
    : undefined;
}
