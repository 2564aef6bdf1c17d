import { describe, expect, it } from 'vitest';
import { causesOf } from '../../../src/coach/evidence/causes';
import { harbourNotes, harbourPlan } from '../practice-take';

const file = (grouping: string, subdivision: number, more: object = {}) => ({
  title: 'Causes',
  meter: '4/4',
  tempoBpm: 90,
  subdivision,
  grouping,
  layers: [{ name: 'Sticking' }],
  ...more,
});

function classesOf(phrase: object, layer = 1, bars = 4): string[] {
  const { phrase: checked } = harbourPlan(layer, phrase);
  const notes = harbourNotes(bars, layer, phrase).map(({ note }) => note);
  const names = (causes: readonly { kind: string; name: string }[]) =>
    causes.map(({ kind, name }) => `${kind} ${name}`).join(' = ');
  return causesOf(checked, layer, notes).map(({ causes, opposite }) =>
    opposite.length > 0 ? `${names(causes)} / ${names(opposite)}` : names(causes),
  );
}

describe('what notes have in common', () => {
  it('is one class where no take can tell it apart: hand, partial and position', () => {
    expect(classesOf(file('R L', 2))).toEqual([
      'partial strokes on the beat = limb right hand = position position 1 / partial off-beat eighths = limb left hand = position position 2',
    ]);
  });

  it('tells hand from partial where the hands go across the beat', () => {
    const classes = classesOf(file('R L', 3));
    expect(classes).toContain('partial third triplet partials');
    expect(classes).toContain(
      'limb right hand = position position 1 / limb left hand = position position 2',
    );
  });

  it('puts swing before the partial that it moves', () => {
    const [first] = classesOf(file('R L R L', 2, { swing: '2:1' }));
    expect(first).toMatch(/^swing off-beats = partial off-beat eighths/);
  });

  it('names each limb of a unison, with the other', () => {
    const classes = classesOf(file('R+K L R L', 4)).join('\n');
    expect(classes).toContain('unison right foot, with right hand');
    expect(classes).toContain('unison right hand, with right foot');
  });

  it('names moves between voices, and what a layer changed', () => {
    const toms = file('R L R L K R L K', 4, {
      layers: [
        { name: 'Sticking' },
        {
          name: 'Toms',
          changes: [{ where: { positions: [3, 6] }, set: { voice: 'floor tom' } }],
        },
      ],
    });
    const classes = classesOf(toms, 2).join('\n');
    expect(classes).toContain('transition snare to floor tom');
    expect(classes).toContain('voice floor tom = layer notes of “Toms”');
  });

  it('leaves out grace notes and pickups', () => {
    const { phrase } = harbourPlan(1, file('lR L', 2));
    const notes = harbourNotes(2, 1, file('lR L', 2)).map(({ note }) => note);
    const main = notes.flatMap(({ graceStep }, at) => (graceStep === 0 ? [at] : []));
    for (const { group, rest } of causesOf(phrase, 1, notes))
      expect([...group, ...rest].sort((a, b) => a - b)).toEqual(main);
  });
});
