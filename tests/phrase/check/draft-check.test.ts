import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkDraft, DraftCheck, withLayer } from '../../../src/phrase/check/draft-check';
import { addChange, editChanges, removeChange } from '../../../src/phrase/edit/edit-changes';
import { editHead } from '../../../src/phrase/edit/edit-head';
import { addLayer, moveLayer, muteLayer, removeLayer } from '../../../src/phrase/edit/edit-layers';
import { setNote } from '../../../src/phrase/edit/edit-position';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import type { Change } from '../../../src/phrase/model/phrase';
import { draftOf, type PhraseDraft } from '../../../src/phrase/model/phrase-draft';
import { arbitraryPhrase, arbitraryPhraseFile } from '../arbitrary-phrase';
import { draftFrom } from '../draft-from';
import { runCount } from '../../run-count';

const arbitraryDraft = () => arbitraryPhraseFile().map(draftFrom);

const change: fc.Arbitrary<Change> = fc.oneof(
  fc.integer({ min: -9, max: 9 }).map((displace) => ({ kind: 'displace' as const, displace })),
  fc
    .integer({ min: 0, max: 14 })
    .map((subdivision) => ({ kind: 'subdivision' as const, subdivision })),
  fc
    .record({
      limb: fc.constantFrom('R' as const, 'L' as const, 'K' as const, 'F' as const),
      nth: fc.integer({ min: 1, max: 3 }),
      silent: fc.boolean(),
    })
    .map(({ limb, nth, silent }) => ({
      kind: 'set' as const,
      where: silent ? { limb } : { limb, nth: [nth] },
      set: { silent },
    })),
  fc.constantFrom(
    { kind: 'set' as const, where: {}, set: { limb: 'R' as const } },
    { kind: 'set' as const, where: { beats: ['1'] }, set: { limb: 'L' as const } },
    { kind: 'swing' as const, swing: '5:1' },
    { kind: 'add' as const, add: [{ position: 1, limb: 'F' as const }] },
  ),
);

describe('one layer more', () => {
  it('lawAsTheWholeCheck: it is a phrase exactly when its draft is one', () => {
    const runs = runCount(300);
    let refused = 0;
    fc.assert(
      fc.property(arbitraryPhrase(), change, (phrase, one) => {
        const layer = { name: 'More', changes: [one] };
        const draft = draftOf(phrase);
        const whole = checkDraft({ ...draft, layers: [...draft.layers, layer] });
        expect(withLayer(layerStack(phrase), layer) !== undefined).toBe(whole.ok);
        if (!whole.ok) refused++;
      }),
      { numRuns: runs },
    );
    // About a quarter; of a few, chance may leave some out.
    expect(refused).toBeGreaterThan(runs / 6 - 5);
  });
});

describe('a draft that is changed', () => {
  const edit: fc.Arbitrary<(draft: PhraseDraft) => PhraseDraft> = fc
    .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 6 }), change)
    .chain(([layer, other, one]) =>
      fc.constantFrom<(draft: PhraseDraft) => PhraseDraft>(
        (draft) => addChange(draft, layer, one),
        (draft) => removeChange(draft, layer, 0),
        (draft) => moveLayer(draft, layer, other),
        (draft) => removeLayer(draft, layer),
        (draft) => muteLayer(draft, layer, true),
        (draft) => muteLayer(draft, layer, false),
        (draft) => addLayer(draft, Math.min(layer, draft.layers.length)),
        (draft) => editHead(draft, { grouping: ['R L', 'R Q', '-', 'K L R+F'][layer % 4]! }),
        (draft) => editHead(draft, { title: layer % 2 === 0 ? '' : 'Ebb' }),
      ),
    );

  it('lawAsAnew: is checked as if nothing was known of it', () => {
    const runs = runCount(200);
    let wrong = 0;
    fc.assert(
      fc.property(arbitraryDraft(), fc.array(edit, { maxLength: 6 }), (draft, edits) => {
        let check = new DraftCheck(draft);
        for (const one of edits) {
          check = check.with(one(check.draft));
          const anew = new DraftCheck(check.draft);
          expect(check.errors).toEqual(anew.errors);
          expect(check.phrase).toEqual(anew.phrase);
          check.draft.layers.forEach((_, i) => {
            expect(check.upTo(i + 1)?.pattern(1)).toEqual(anew.upTo(i + 1)?.pattern(1));
          });
          if (anew.errors.length > 0) wrong++;
        }
      }),
      { numRuns: runs },
    );
    expect(wrong).toBeGreaterThan(runs / 4);
  });

  it('shows a layer whatever is wrong above it, with names yet to come, and laid on where it is muted', () => {
    const draft = draftFrom({
      title: '',
      meter: '4/4',
      tempoBpm: 90,
      subdivision: 4,
      grouping: 'R L',
      layers: [
        { name: 'Sticking' },
        { name: ' ', muted: true, changes: [{ where: {}, set: { voice: 'ride' } }] },
        { name: 'Wrong', changes: [{ where: { positions: [3] }, set: { level: 'ghost' } }] },
      ],
    });
    const check = new DraftCheck(draft);
    expect(check.errors.map(({ code, place }) => [code, place])).toEqual([
      ['NO_TEXT', 'title'],
      ['NO_TEXT', 'layers[1].name'],
    ]);
    expect(check.upTo(2)?.pattern(1)[0]!.voice).toBe('ride');
    expect(check.upTo(3)).toBeUndefined();
    expect(check.upTo(4)).toBeUndefined();
  });
});

describe('one note changed in a phrase of 32 layers', () => {
  const LAYERS = 32;
  const draft = draftFrom({
    title: 'Long ladder',
    meter: '4/4',
    tempoBpm: 90,
    subdivision: 4,
    grouping: 'R L R L K',
    cycle: 16,
    layers: Array.from({ length: LAYERS }, (_, i) => ({
      name: `Layer ${i + 1}`,
      changes: [
        { where: { positions: [(i % 16) + 1] }, set: { level: i % 2 ? 'accent' : 'ghost' } },
      ],
    })),
  });
  const accent = (work: DraftCheck, layer: number) =>
    setNote(work, layer, { position: 9, limb: 'L' }, { level: 'accent' });

  it.each([1, 20, 32])('is checked once, from layer %i on', (layer) => {
    const seen: [number, number][] = [];
    const work = new DraftCheck(draft, undefined, (...one) => void seen.push(one));
    expect(work.errors).toEqual([]);
    const cyclesOf = (wanted: number) => seen.filter(([one]) => one === wanted).length;
    // The pickup and the first cycle are all that a layer of one cycle takes.
    for (let i = 1; i <= LAYERS; i++) expect(cyclesOf(i)).toBe(2);
    seen.length = 0;
    const edited = work.with(accent(work, layer));
    const tried = seen.length;
    expect(new Set(seen.map(([one]) => one))).toEqual(new Set([layer]));
    expect(edited.errors).toEqual([]);
    expect(edited.phrase).toEqual(new DraftCheck(edited.draft).phrase);
    seen.splice(0, tried);
    expect(seen.map(([one]) => one)).toEqual(
      Array.from({ length: LAYERS - layer }, (_, i) => [layer + i + 1, layer + i + 1]).flat(),
    );
  });

  it('is not checked again when it is asked for again, nor when a layer is put on top', () => {
    const seen: number[] = [];
    const work = new DraftCheck(draft, undefined, (layer) => void seen.push(layer));
    expect([work.errors, work.errors]).toEqual([[], []]);
    const fewer = work.with(editChanges(draft, 32, []));
    seen.length = 0;
    expect(
      fewer.with(addChange(fewer.draft, 32, { kind: 'displace', displace: 1 })).errors,
    ).toEqual([]);
    expect(new Set(seen)).toEqual(new Set([32]));
  });
});
