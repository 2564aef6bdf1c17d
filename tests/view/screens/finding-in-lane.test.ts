import { describe, expect, it } from 'vitest';
import { finding } from '../../../src/coach/finding';
import { findingPlace } from '../../../src/coach/finding-place';
import { findings } from '../../../src/coach/findings';
import { LIMBS } from '../../../src/phrase/model/limb';
import { VOICES } from '../../../src/phrase/model/voice';
import { openTake, type OpenedTake } from '../../../src/live/open-take';
import type { TimedNote } from '../../../src/match/timed-note';
import { beats } from '../../../src/time/beats';
import { findingInLane, laneNotes } from '../../../src/view/screens/log/finding-in-lane';
import { findingPlaceWords, passageSoundWords } from '../../../src/view/screens/log/passage-words';
import { stubParts } from '../stub-parts';
import { simulatedTake } from '../sample-takes';

const { library } = stubParts('finding-in-lane');
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

describe('a finding in the lane', () => {
  const shown = (take: OpenedTake, notes: readonly TimedNote[]) => {
    const one = finding('missed', 1, notes, { name: undefined, times: notes.length, of: notes.length });
    return findingInLane(take.lane, one, findingPlace(take.plan, take.judgement, one)!);
  };

  it('begins on the beat of its first note there', () => {
    const take = opened('quay-steps');
    const [due] = only(take, ({ note }) => note.bar === 2 && !note.beat.equals(note.beat.floor()));
    const { atUs, notes } = shown(take, [due!]);
    const { beatsPerBar } = take.plan.phrase.meter;
    const beat = beats(beatsPerBar * (due!.note.bar - 1)).add(due!.note.beat.floor().sub(1));
    expect(atUs).toBe(take.plan.tempo.usAt(beat));
    expect(atUs).toBeLessThan(due!.timeUs);
    expect([...notes]).toEqual([duesOf(take).indexOf(due!)]);
  });

  it('has all of its notes, also those judged beside a course that leaves the click', () => {
    const rushing = ({ note, timeUs }: TimedNote) =>
      -timeUs / 400_000 + (note.limb === 'L' ? 16 : 0);
    const take = opened('quay-steps', { spreadMs: 3 }, { endUs: 40_000_000, lateMs: rushing });
    for (const code of ['drift', 'limb off']) {
      const { notes } = findingOf(take, code);
      expect(notes.length).toBeGreaterThan(40);
      expect(shown(take, notes).notes.size).toBe(notes.length);
    }
  });

  it('says in words where it begins and what sounds', () => {
    const take = opened('quay-steps');
    const { place } = shown(
      take,
      only(take, ({ note }) => note.bar === 3),
    );
    expect(findingPlaceWords(place)).toBe('from bar 3');
    expect(passageSoundWords(place, place.slower)).toBe(
      'Sounds: layer 5 as written, from bar 3, at 66 bpm, with the click. Esc stops it.',
    );
    expect(duesOf(take)[0]!.note.bar).toBe(0);
    expect(findingPlaceWords(shown(take, [duesOf(take)[0]!]).place)).toBe('from the pickup');
  });
});
