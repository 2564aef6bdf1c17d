import type { Phrase } from '../phrase';
import type { ChangeFile } from '../phrase-file';
import { timeline } from '../timeline';
import { VOICES, type Voice } from '../voice';
import { withLayer, type Varied } from './varied';

/** Two voices exchanged wherever either is played, as one more layer. */
export function swapVoices(phrase: Phrase, one: Voice, other: Voice): Varied | undefined {
  const mains = timeline(phrase, phrase.layers.length).notes.filter((n) => n.graceStep === 0);
  const used = new Set(mains.map(({ voice }) => voice));
  const aside = VOICES.find((voice) => !used.has(voice) && voice !== one && voice !== other);
  if (aside === undefined) return undefined;
  const revoice = (from: Voice, to: Voice): ChangeFile => ({
    where: { voice: from },
    set: { voice: to },
  });
  if (used.has(one) && used.has(other))
    return withLayer(
      phrase,
      'Voices swapped',
      [revoice(one, aside), revoice(other, one), revoice(aside, other)],
      `What was on the ${one} is on the ${other}, and the other way round.`,
    );
  const [from, to] = used.has(one) ? [one, other] : [other, one];
  return withLayer(
    phrase,
    'Voices swapped',
    [revoice(from, to)],
    `What was on the ${from} is on the ${to}.`,
  );
}
