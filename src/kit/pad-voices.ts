import type { Voice } from '../phrase/model/voice';
import type { Pad } from './kit';

/**
 * All that a zone may sound: one that follows the hi-hat's controller is open or closed.
 *
 * @example padVoices({ voice: 'hi-hat closed', followsOpening: true }) // => ['hi-hat open', 'hi-hat closed']
 */
export const padVoices = ({
  voice,
  followsOpening,
}: Pick<Pad, 'voice' | 'followsOpening'>): readonly Voice[] =>
  followsOpening === true ? ['hi-hat open', 'hi-hat closed'] : [voice];
