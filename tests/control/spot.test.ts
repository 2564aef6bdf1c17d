import { describe, expect, it } from 'vitest';
import { isPractisable, spotAt } from '../../src/control/spot';
import { beats } from '../../src/time/beats';
import { steadyTempo, tempoMap } from '../../src/time/tempo';
import { layeredPhrase, phraseOf } from '../phrase/phrase-of';

/** Sixteenths at 60: a partial is a quarter of a second, a bar four. */
const phrase = phraseOf({ grouping: 'R L K' });
const plan = {
  phrase,
  passages: [{ fromBar: 1, layer: 1 }],
  tempo: steadyTempo(60),
  windows: {},
};

describe('a spot that was marked', () => {
  it('is a place of the take, and the bar up to the end of its beat is what to practise', () => {
    // Bar 2, beat 2, second sixteenth: partial 21, its beat ends with 23.
    expect(spotAt(plan, 5_300_000)).toMatchObject({
      layer: 1,
      words: 'bar 2, 2 e',
      excerpt: { from: 8, to: 23 },
    });
  });

  it('comes first in the layer where the take has gone round', () => {
    // Three bars on it is the same.
    expect(spotAt(plan, 17_300_000)).toMatchObject({
      words: 'bar 5, 2 e',
      excerpt: { from: 8, to: 23 },
    });
  });

  it('is none in the count-in, and begins with the take in its first bar', () => {
    expect(spotAt(plan, -1)).toBeUndefined();
    expect(spotAt(plan, 0)).toMatchObject({ words: 'bar 1, 1', excerpt: { from: 0, to: 3 } });
  });

  it('follows changes of tempo and layer', () => {
    const changed = {
      ...plan,
      phrase: layeredPhrase({ grouping: 'R L K' }, [{ accentEvery: 4 }]),
      passages: [
        { fromBar: 1, layer: 1 },
        { fromBar: 4, layer: 2 },
      ],
      tempo: tempoMap([
        { fromBeat: beats(0), bpm: 60 },
        { fromBeat: beats(12), bpm: 120 },
      ]),
    };
    // 12 s are three bars; half a second at 120 is a beat.
    expect(spotAt(changed, 12_500_000)).toMatchObject({ layer: 2, words: 'bar 4, 2' });
  });

  it('can be practised where something is played', () => {
    expect(isPractisable(phrase, spotAt(plan, 5_300_000)!)).toBe(true);
    const rests = phraseOf({
      grouping: 'R - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - -',
    });
    const inRest = spotAt({ ...plan, phrase: rests }, 7_900_000)!;
    expect(isPractisable(rests, inRest)).toBe(false);
  });
});
