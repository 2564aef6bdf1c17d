import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkDraft } from '../../../src/phrase/check/draft-check';
import { copyLayer } from '../../../src/phrase/edit/copy-layer';
import { removeLayer } from '../../../src/phrase/edit/edit-layers';
import { runCount } from '../../run-count';
import { arbitraryPhraseFile } from '../arbitrary-phrase';
import { draftFrom } from '../draft-from';

const head = { meter: '4/4', tempoBpm: 90, subdivision: 4 };
const FROM = draftFrom({
  ...head,
  title: 'Capstan',
  grouping: 'R L R K',
  layers: [
    { name: 'Sticking' },
    { name: 'Bell', changes: [{ where: { positions: [4] }, set: { voice: 'ride bell' } }] },
  ],
});
const into = (grouping: string) =>
  draftFrom({ ...head, title: 'Hawser', grouping, layers: [{ name: 'Sticking' }] });

describe('a layer copied to another phrase', () => {
  it('stands over its last layer, with name and changes', () => {
    const copied = copyLayer(FROM, 2, into('R L L K'));
    expect(copied.ok && copied.value).toEqual({
      ...into('R L L K'),
      layers: [{ name: 'Sticking', changes: [] }, FROM.layers[1]],
    });
  });

  it('is refused with what does not suit: a position that the other cycle does not have', () => {
    const refused = copyLayer(FROM, 2, into('R L K'));
    expect(refused.ok).toBe(false);
    if (refused.ok) return;
    expect(refused.errors[0]!.place).toMatch(/^layers\[1\]/);
    expect(refused.errors[0]!.message).toMatch(/4/);
    expect(refused.errors[0]!.message).toMatch(/3/);
  });

  it('has to be there', () => {
    expect(() => copyLayer(FROM, 3, into('R L K'))).toThrow('the phrase has 2 layers, not 3');
  });

  it('lawCopyTakesNothing: without the copy both phrases are as they were, and with it the other is a phrase', () => {
    const drafts = arbitraryPhraseFile().map(draftFrom);
    fc.assert(
      fc.property(drafts, drafts, fc.nat(), (from, other, pick) => {
        const before = JSON.stringify([from, other]);
        const copied = copyLayer(from, (pick % from.layers.length) + 1, other);
        expect(JSON.stringify([from, other])).toBe(before);
        if (!copied.ok) return;
        expect(checkDraft(copied.value).ok).toBe(true);
        expect(removeLayer(copied.value, copied.value.layers.length)).toEqual(other);
      }),
      { numRuns: runCount(60) },
    );
  });
});
