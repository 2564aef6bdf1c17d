import { describe, expect, it } from 'vitest';
import { findingPlace } from '../../src/coach/finding-place';
import { findings } from '../../src/coach/findings';
import type { Plan } from '../../src/match/plan';
import type { TimedNote } from '../../src/match/timed-note';
import { timedNotes } from '../../src/match/timed-notes';
import type { Judgement } from '../../src/score/judge';
import { beats } from '../../src/time/beats';
import { steadyTempo, tempoMap } from '../../src/time/tempo';
import { BOUNDARIES, harbourNotes, harbourPlan, HUMAN, judged, later, play } from './practice-take';

const plan = harbourPlan();
const notes = harbourNotes(12);
const findingOf = (judgement: Judgement, code: string) =>
  findings(plan, judgement, () => BOUNDARIES).find((one) => one.code === code)!;

describe('where a finding shows', () => {
  it.each([3, 6, 9])('of time: the cycle in which its notes are farthest off: %i', (cycle) => {
    const strokes = play(notes, { spreadMs: 3 }, 5, (stroke, { note }) =>
      note.limb === 'L' ? later(stroke, note.cycle === cycle ? 30 : 14) : stroke,
    );
    const judgement = judged(notes, strokes);
    const { first } = findingPlace(plan, judgement, findingOf(judgement, 'limb off'))!;
    expect(first.note).toMatchObject({ cycle, limb: 'L', position: 2 });
  });

  it('of two cycles alike the earlier one', () => {
    const judgement = judged(notes, play(notes, {}, 5));
    const all = { code: 'spread', notes } as const;
    expect(findingPlace(plan, judgement, all)!.first).toBe(notes[0]);
  });

  it('else: the first of its notes that is not as written, or else the first', () => {
    const isLost = ({ note }: TimedNote) => note.bar === 4 && note.limb === 'R';
    const strokes = play(notes, {}, 5, (stroke, due) => (isLost(due) ? undefined : stroke));
    const judgement = judged(notes, strokes);
    const placeOf = (about: readonly TimedNote[]) =>
      findingPlace(plan, judgement, { code: 'missed', notes: about })!.first;
    expect(placeOf(notes)).toBe(notes.find(isLost));
    const later5 = notes.filter(({ note }) => note.bar >= 5);
    expect(placeOf(later5)).toBe(later5[0]);
  });

  it('of what is judged beside a course that leaves the click, too', () => {
    const strokes = play(notes, HUMAN, 5, (stroke) => later(stroke, -stroke.timeUs / 400_000));
    const judgement = judged(notes, strokes);
    const { first } = findingPlace(plan, judgement, findingOf(judgement, 'drift'))!;
    expect(first.note.bar).toBe(12);
  });

  it('is nowhere for a finding about no notes, nor about those of another take', () => {
    const judgement = judged(notes, play(notes, {}, 5));
    const nowhere = (about: readonly TimedNote[]) =>
      expect(findingPlace(plan, judgement, { code: 'extras', notes: about })).toBeUndefined();
    nowhere([]);
    nowhere(harbourNotes(1));
  });
});

describe('the written passage of a finding', () => {
  const { phrase } = plan;
  const of = (change: Partial<Plan>, is: (due: TimedNote) => boolean) => {
    const changed = { ...plan, ...change };
    const dues = timedNotes(changed, changed.tempo.usAt(beats(32)) - 1);
    return findingPlace(changed, judged(dues, []), {
      code: 'missed',
      notes: dues.filter(is),
    })!;
  };

  it('is the layer from its bar on at the tempo played to, and three quarters of it', () => {
    const { asWritten, slower } = of({}, ({ note }) => note.bar === 3);
    expect(asWritten).toEqual({ phrase, layer: 2, bpm: 96, click: true, fromBar: 3 });
    expect(slower).toEqual({ ...asWritten, bpm: 72 });
  });

  it('is at the tempo that held there', () => {
    const tempo = tempoMap([...steadyTempo(96).changes, { fromBeat: beats(16), bpm: 100 }]);
    expect(of({ tempo }, ({ note }) => note.bar === 4).asWritten.bpm).toBe(96);
    expect(of({ tempo }, ({ note }) => note.bar === 5).asWritten.bpm).toBe(100);
  });

  it('counts bars from where its layer began', () => {
    const passages = [
      { fromBar: 1, layer: 2 },
      { fromBar: 3, layer: 1 },
    ];
    const { first, asWritten } = of({ passages }, ({ note }) => note.bar === 4);
    expect(first.note.bar).toBe(4);
    expect(asWritten).toMatchObject({ layer: 1, fromBar: 2 });
  });

  it('is heard from the beginning where it begins in the pickup', () => {
    const [due] = harbourNotes(1);
    const pickup = { ...due!, note: { ...due!.note, bar: 0 } };
    const place = findingPlace(plan, judged([pickup], []), { code: 'missed', notes: [pickup] })!;
    expect(place.asWritten).not.toHaveProperty('fromBar');
  });
});
