import { describe, expect, it } from 'vitest';
import { findings } from '../../../src/coach/findings';
import { LIMBS } from '../../../src/phrase/model/limb';
import { VOICES } from '../../../src/phrase/model/voice';
import { openTake, type OpenedTake } from '../../../src/live/open-take';
import type { TimedNote } from '../../../src/match/timed-note';
import { beats } from '../../../src/time/beats';
import { findingPlace, laneNotes } from '../../../src/view/screens/log/finding-place';
import { findingPlaceWords, passageSoundWords } from '../../../src/view/screens/log/passage-words';
import { stubParts } from '../stub-parts';
import { simulatedTake } from '../sample-takes';

const { library } = stubParts('finding-place');
const entry = (id: string) => library.find(id)!;
const BOUNDARIES = { ghostMax: 50, accentMin: 95 };
const WHEN = '2026-11-20T18:20:00.000Z';

const opened = (id: string, ...[faults, played]: PlayedAs) =>
  openTake(simulatedTake(entry(id), WHEN, faults, played))!;
type PlayedAs = [
  faults?: Parameters<typeof simulatedTake>[2],
  played?: Parameters<typeof simulatedTake>[3],
];
const duesOf = ({ judgement }: OpenedTake) => judgement.notes.map(({ due }) => due);
const only = (take: OpenedTake, is: (due: TimedNote) => boolean) => duesOf(take).filter(is);
const findingOf = ({ plan, judgement }: OpenedTake, code: string) =>
  findings(plan, judgement, () => BOUNDARIES).find((one) => one.code === code)!;

describe('the notes of a finding in the lane', () => {
  it.each(library.phrases.map(({ id }) => id))('are the judged ones in their order: %s', (id) => {
    const take = opened(id, { spreadMs: 9, missed: 0.1, wrongVoices: 0.1 });
    const dues = duesOf(take);
    expect(dues.length).toBeGreaterThan(20);
    expect(laneNotes(take.lane, dues)).toEqual([...dues.keys()]);
  });

  it('are the same where an earlier layer is left out, and none where the lane has none', () => {
    const passages = [
      { fromBar: 1, layer: 5 },
      { fromBar: 3, layer: 2 },
    ];
    const take = opened('quay-steps', {}, { passages });
    const dues = duesOf(take);
    const second = dues.filter(({ passage }) => passage === 1);
    const first = dues.findIndex(({ passage }) => passage === 1);
    expect(first).toBeGreaterThan(0);
    expect(laneNotes(take.lane, second)).toEqual(
      [...dues.keys()].filter((at) => dues[at]!.passage === 1),
    );
    expect(laneNotes(take.lane, [{ ...second[0]!, timeUs: second[0]!.timeUs + 1 }])).toEqual([]);
  });

  it('tell two limbs on one voice apart', () => {
    const feed = {
      noteCount: 2,
      noteTimeUs: Float64Array.of(0, 0),
      noteVoice: Uint8Array.of(1, 1),
      noteLimb: Uint8Array.of(0, 1),
    };
    const [voice, limbs] = [VOICES[1], [LIMBS[1], LIMBS[0]]];
    const dues = limbs.map((limb) => ({ timeUs: 0, note: { voice, limb } as TimedNote['note'] }));
    expect(laneNotes(feed, dues)).toEqual([1, 0]);
  });
});

describe('where a finding shows', () => {
  it('of time: the cycle in which its notes are farthest off', () => {
    const farthest = (cycle: number) => {
      const take = opened(
        'quay-steps',
        { spreadMs: 3 },
        {
          endUs: 40_000_000,
          lateMs: ({ note }) => (note.limb === 'L' ? (note.cycle === cycle ? 30 : 14) : 0),
        },
      );
      const late = findingOf(take, 'limb off');
      const place = findingPlace(take, late)!;
      const [first] = only(take, ({ note }) => note.cycle === cycle && note.limb === 'L');
      expect(place.bar).toBe(first!.note.bar);
      const left = duesOf(take).flatMap(({ note }, at) =>
        // A pickup has no cycle, and belongs to no group.
        note.limb === 'L' && note.cycle > 0 ? [at] : [],
      );
      expect([...place.notes]).toEqual(left);
      return place;
    };
    const bars = [3, 6, 9].map((cycle) => farthest(cycle).bar);
    expect(new Set(bars).size).toBe(3);
  });

  it('the playhead stands on the beat of its first note there', () => {
    const take = opened('quay-steps');
    const [due] = only(take, ({ note }) => note.bar === 2 && !note.beat.equals(note.beat.floor()));
    const place = findingPlace(take, { code: 'missed', notes: [due!] })!;
    const { beatsPerBar } = take.plan.phrase.meter;
    const beat = beats(beatsPerBar * (due!.note.bar - 1)).add(due!.note.beat.floor().sub(1));
    expect(place.atUs).toBe(take.plan.tempo.usAt(beat));
    expect(place.atUs).toBeLessThan(due!.timeUs);
  });

  it('else: the first of its notes that is not as written', () => {
    const take = opened('quay-steps', { missed: 0.1 });
    const { notes } = take.judgement;
    const missed = notes.find(({ verdict }) => verdict === 'missed')!;
    expect(missed).not.toBe(notes[0]);
    const all = { code: 'contrast', notes: duesOf(take) } as const;
    expect(findingPlace(take, all)!.bar).toBe(missed.due.note.bar);
    // All as written: the first.
    const right = notes.filter(({ verdict, due }) => verdict === 'in time' && due.note.bar > 1);
    const asWritten = { code: 'contrast', notes: right.map(({ due }) => due) } as const;
    expect(findingPlace(take, asWritten)!.bar).toBe(right[0]!.due.note.bar);
  });

  it('of what is judged beside a course that leaves the click, too', () => {
    const rushing = ({ note, timeUs }: TimedNote) =>
      -timeUs / 400_000 + (note.limb === 'L' ? 16 : 0);
    const take = opened('quay-steps', { spreadMs: 3 }, { endUs: 40_000_000, lateMs: rushing });
    for (const code of ['drift', 'limb off']) {
      const { notes } = findingOf(take, code);
      expect(findingPlace(take, { code, notes } as never)!.notes.size).toBe(notes.length);
    }
    // 40 s by 2.5 ms each second: the last whole cycles are farthest off.
    expect(findingPlace(take, findingOf(take, 'drift'))!.bar).toBeGreaterThan(10);
  });

  it('is nowhere for a finding about no notes', () => {
    expect(findingPlace(opened('quay-steps'), { code: 'extras', notes: [] })).toBeUndefined();
  });
});

describe('the written passage of a finding', () => {
  const of = (take: OpenedTake, due: TimedNote) =>
    findingPlace(take, { code: 'missed', notes: [due] })!;

  it('is the layer from its bar on at the tempo played to, and three quarters of it', () => {
    const take = opened('quay-steps');
    const { phrase } = take.plan;
    const place = of(take, only(take, ({ note }) => note.bar === 3)[0]!);
    const passage = { phrase, layer: 5, bpm: 88, click: true, fromBar: 3 };
    expect(place.asWritten).toEqual(passage);
    expect(place.slower).toEqual({ ...passage, bpm: 66 });
    expect(findingPlaceWords(place)).toBe('from bar 3');
    expect(passageSoundWords(place, place.slower)).toBe(
      'Sounds: layer 5 as written, from bar 3, at 66 bpm, with the click. Esc stops it.',
    );
  });

  it('counts bars from where its layer began', () => {
    const passages = [
      { fromBar: 1, layer: 5 },
      { fromBar: 3, layer: 2 },
    ];
    const take = opened('quay-steps', {}, { passages });
    const [due] = only(take, ({ passage, note }) => passage === 1 && note.bar === 4);
    const { bar, asWritten } = of(take, due!);
    expect(bar).toBe(4);
    expect(asWritten).toMatchObject({ layer: 2, fromBar: 2 });
  });

  it('is heard from the pickup where it begins there', () => {
    const take = opened('quay-steps');
    const place = of(take, duesOf(take)[0]!);
    expect(duesOf(take)[0]!.note.bar).toBe(0);
    expect(place.asWritten).not.toHaveProperty('fromBar');
    expect(findingPlaceWords(place)).toBe('from the pickup');
  });
});
