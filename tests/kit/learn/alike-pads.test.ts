import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { withBoundaries } from '../../../src/kit/edit-kit';
import { alikePads, withAlikeBoundaries } from '../../../src/kit/learn/alike-pads';

const LIMITS = { ghostMax: 40, accentMin: 88 };
const OTHERS = { ghostMax: 30, accentMin: 100 };
const notesWith = ({ ghostMax }: typeof LIMITS, kit = EDGE_AND_RIM) =>
  kit.pads.filter((pad) => pad.ghostMax === ghostMax).map(({ note }) => note);

describe('pads alike', () => {
  it.each([
    [38, ['tom 1 head', 'tom 2 head', 'tom 3 head', 'low floor tom']],
    [40, ['tom 1 rim', 'tom 2 rim', 'tom 3 rim']],
    [49, ['crash 2 bow', 'ride bow']],
    [22, ['hi-hat open edge']],
    [37, []],
    [53, []],
    [99, []],
  ])('note %i', (note, names) => {
    expect(alikePads(EDGE_AND_RIM, note).map(({ name }) => name)).toEqual(names);
  });

  it('is mutual', () => {
    for (const { note } of EDGE_AND_RIM.pads)
      for (const other of alikePads(EDGE_AND_RIM, note))
        expect(alikePads(EDGE_AND_RIM, other.note).map((pad) => pad.note)).toContain(note);
  });

  it('take over levels learned on one of them, and again the next time', () => {
    const once = withAlikeBoundaries(EDGE_AND_RIM, 38, LIMITS);
    expect(notesWith(LIMITS, once)).toEqual([38, 48, 45, 43, 41]);
    expect(notesWith(OTHERS, withAlikeBoundaries(once, 38, OTHERS))).toEqual([38, 48, 45, 43, 41]);
  });

  it('keep levels that were learned on themselves', () => {
    const own = withBoundaries(withAlikeBoundaries(EDGE_AND_RIM, 38, LIMITS), 48, OTHERS);
    const again = withAlikeBoundaries(own, 38, { ghostMax: 35, accentMin: 92 });
    expect(notesWith(OTHERS, again)).toEqual([48]);
    expect(notesWith({ ghostMax: 35, accentMin: 92 }, again)).toEqual([38, 45, 43, 41]);
  });
});
