import { USUAL_VELOCITIES } from '../../phrase/model/level';
import { KEY_OF_VOICE } from '../general-midi-keys';
import type { Score, StaffNote } from '../score/score';
import { meiDocument } from './mei-document';
import { meiCycles, meiTempo, meiTexts } from './mei-rows';
import { tellsClosed } from '../score/note-signs';

/**
 * A score as MEI 5.1: heads and places on the staff, keys of General MIDI, sticking and counts as rows of directives, a
 * bracket over each cycle. As it is written: swing is told in words.
 *
 * @example writeMei(layerScore(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1)).match(/<note /g).length // => 48
 */
export function writeMei(score: Score): string {
  const signs = tellsClosed(score) ? 'all' : 'all but closed';
  const sound = ({ voice, level }: StaffNote) => ({
    pnum: KEY_OF_VOICE.get(voice),
    vel: USUAL_VELOCITIES[level],
  });
  return meiDocument(score, { signs, hasTuplets: true, sound }, (bar, i) => ({
    ahead: '',
    after: (i === 0 ? meiTempo(score) : '') + meiTexts(score, bar) + meiCycles(score, bar),
  }));
}
