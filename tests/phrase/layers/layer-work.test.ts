import { describe, expect, it } from 'vitest';
import { layerShape } from '../../../src/phrase/layers/layer-shape';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import { rootNotes, layerWork } from '../../../src/phrase/layers/layer-work';
import type { ChangeFile, PhraseFile } from '../../../src/phrase/model/phrase-file';
import { errorsOf, SOUND } from '../file/broken-phrases';
import { phraseOf } from '../phrase-of';

const codes = (file: Partial<PhraseFile>) =>
  errorsOf({ ...SOUND, ...file }).map(({ code, place }) => `${code} ${place}`);

const RIDE: ChangeFile = { where: { limb: 'R' }, set: { voice: 'ride' } };
/** A change with so many selections within its own. */
const withInside = (count: number): ChangeFile => ({
  where: { any: Array.from({ length: count }, () => ({ limb: 'R' as const })) },
  set: { voice: 'ride' },
});
/** 32 layers of 64 changes on 512 notes, which is 32 · 512 · 65 looks and 512 for each selection within another. */
const full = (first: ChangeFile, second: ChangeFile) => ({
  grouping: 'R',
  cycle: 512,
  layers: Array.from({ length: 32 }, (_, i) => ({
    name: `Layer ${i + 1}`,
    changes: [i === 0 ? first : RIDE, i === 0 ? second : RIDE, ...Array<ChangeFile>(62).fill(RIDE)],
  })),
});
/** A hand that changes at a place of its own, so that all cycles until that comes round again must be looked through. */
const comingRound = (partials: number, limb: 'L' | 'R' = 'L') => ({
  grouping: 'R',
  cycle: 512,
  layers: [
    { name: 'Round', changes: [{ where: { every: { partials, at: [1] } }, set: { limb } }] },
  ],
});

describe('how much a phrase may ask for', () => {
  it('all layers and changes there may be on the longest cycle, and 68 selections within others', () => {
    expect(codes(full(withInside(34), withInside(34)))).toEqual([]);
    expect(codes(full(withInside(34), withInside(35)))).toEqual(['TOO_LARGE layers']);
  });

  it('the same on twice as many notes is too much', () => {
    expect(codes({ ...full(RIDE, RIDE), grouping: 'R+L' })).toEqual(['TOO_LARGE layers']);
    expect(codes({ ...full(RIDE, RIDE), grouping: 'R+L', cycle: 256 })).toEqual([]);
  });

  it('cycles of 512 that come round after 537 are looked through, and not after 539', () => {
    expect(codes(comingRound(537))).toEqual([]);
    expect(codes(comingRound(539))).toEqual(['TOO_LARGE layers']);
  });

  it('layers share what is looked through', () => {
    const [layer] = comingRound(269).layers;
    const [other] = comingRound(267, 'R').layers;
    const file = comingRound(269);
    expect(codes(file)).toEqual([]);
    expect(codes({ ...file, layers: [layer!, { ...other!, name: 'Back' }] })).toEqual([
      'TOO_LARGE layers',
    ]);
  });

  it('a layer above that moves no limb need not come round with those below', () => {
    const above = { name: 'Accents', changes: [{ accentEvery: 511 }, { accentEvery: 509 }] };
    const { layers, ...head } = comingRound(101);
    expect(codes({ ...head, layers: [...layers, above] })).toEqual([]);
  });
});

describe('cycles in reach', () => {
  const reach = (file: Partial<PhraseFile>) => layerStack(phraseOf(file)).cyclesInReach;
  const layer = (...changes: ChangeFile[]) => ({ name: 'Layer', changes });

  it('are as many as half a second lays on, and one at least', () => {
    // 550,000 looks; two at each of 8 notes, and one more with each change.
    expect(reach({ grouping: 'R', cycle: 8, layers: [layer(RIDE)] })).toBe(34_375);
    expect(reach({ grouping: 'R', cycle: 8, layers: [layer(RIDE, RIDE)] })).toBe(22_916);
    expect(reach(full(RIDE, RIDE))).toBe(1);
  });

  it('are all that are looked through for levels that a later layer takes away', () => {
    const lays: number[] = [];
    const accents = layer({ accentEvery: 511 }, ...Array<ChangeFile>(63).fill(RIDE));
    const taken = layer({ where: {}, set: { level: 'tap' } });
    const phrase = phraseOf({ grouping: 'R', cycle: 512, layers: [accents, taken] });
    const stack = layerStack(phrase);
    const pattern = stack.pattern.bind(stack);
    stack.pattern = (cycle) => {
      lays.push(cycle);
      return pattern(cycle);
    };
    expect(layerShape(phrase, 2).hasAccents).toBe(false);
    expect(stack.period).toBe(511);
    expect(lays).toHaveLength(stack.cyclesInReach + 1);
    expect(stack.cyclesInReach).toBe(16);
  });
});

describe('layerWork', () => {
  it('counts notes with their grace notes, those that are added, and grace notes that are given', () => {
    const notes = rootNotes(phraseOf({ grouping: 'llR L+K - R', cycle: 6 }));
    // Six partials: llR, L+K, a rest, R, llR, L+K.
    expect(notes).toEqual({ mains: 7, graces: 4 });
    const add = { kind: 'add' as const, add: [{ position: 3, limb: 'F' as const }] };
    const flams = { kind: 'set' as const, where: {}, set: { grace: 'flam' as const } };
    expect(layerWork([add, flams], notes)).toEqual({
      notes: { mains: 8, graces: 16 },
      looks: 11 + 12 + 24,
    });
  });

  it('counts what a selection goes through', () => {
    const notes = { mains: 100, graces: 0 };
    const looks = (where: object) =>
      layerWork([{ kind: 'set', where, set: { voice: 'ride' } }], notes).looks - 100;
    expect(looks({})).toBe(100);
    expect(looks({ not: { limb: 'R' }, any: [{ limb: 'R' }, { limb: 'L' }] })).toBe(400);
    expect(looks({ every: { partials: 256, at: Array(128).fill(1) } })).toBe(100);
    expect(looks({ nth: [1, 2, 3] })).toBe(100 + 30);
  });
});
