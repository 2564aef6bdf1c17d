import { SURE_FROM } from '../../src/capture/capture-finding';
import { findSticking } from '../../src/phrase/playability/find-sticking';
import { parseGrouping } from '../../src/phrase/check/parse-grouping';
import { RUDIMENTS } from '../reference/rudiment-stickings';
import { ClaimCount, type Claim } from './claim';

/** A sixteenth at 100 beats a minute. */
const PARTIAL_US = 150_000;

/**
 * The hands that capture names for rudiments on one drum, of which it is never sure: a hand is wrong when the rudiment
 * has the other one there.
 */
export function stickingClaims(): readonly Claim[] {
  const hands = new ClaimCount('names a hand, not sure of it');
  const sure = new ClaimCount('sure of the sticking');
  for (const [, grouping] of RUDIMENTS) {
    const parsed = parseGrouping(grouping);
    if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
    const written = parsed.value.map(([stroke]) => stroke!.limb);
    const notes = written.map((_, partial) => ({ partial, voice: 'snare' as const }));
    const { limbs, confidence } = findSticking(notes, written.length, PARTIAL_US);
    written.forEach((limb, i) => hands.add(limbs[i] !== limb));
    if (confidence >= SURE_FROM) sure.add(limbs.join() !== written.join());
  }
  return [hands.claim, sure.claim];
}
