import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cycleStrokes, noteKey } from '../../../src/phrase/edit/cycle-strokes';
import * as notes from '../../../src/phrase/edit/edit-position';
import * as steps from '../../../src/phrase/edit/set-step';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { LEVELS } from '../../../src/phrase/model/level';
import type { Limb } from '../../../src/phrase/model/limb';
import { draftFile } from '../../../src/phrase/model/draft-file';
import type { PhraseDraft } from '../../../src/phrase/model/phrase-draft';
import type { ChangeFile, PhraseFile } from '../../../src/phrase/model/phrase-file';
import { VOICES } from '../../../src/phrase/model/voice';
import { arbitraryPhraseFile } from '../arbitrary-phrase';
import { draftFrom } from '../draft-from';
import { noteGrid } from '../note-grid';
import { phraseOf } from '../phrase-of';
import { runCount } from '../../run-count';

const FILE: PhraseFile = {
  title: 'Mooring',
  meter: '4/4',
  tempoBpm: 90,
  subdivision: 4,
  grouping: 'R L R+K L',
  cycle: 16,
  layers: [{ name: 'Sticking' }, { name: 'Mine' }],
};
/** An edit from file to file, as they are read and written. */
const onFile =
  <A extends unknown[]>(edit: (work: DraftCheck, ...given: A) => PhraseDraft) =>
  (file: PhraseFile, ...given: A): PhraseFile =>
    draftFile(edit(new DraftCheck(draftFrom(file)), ...given));
const setNote = onFile(notes.setNote);
const addNote = onFile(notes.addNote);
const removeNote = onFile(notes.removeNote);
const setStep = onFile(steps.setStep);
const { parseStep } = steps;
const phraseUpTo = (file: PhraseFile, layer: number) =>
  new DraftCheck(draftFrom(file)).upTo(layer)?.phrase;

const place = (position: number, limb: Limb) => ({ position, limb });
const ACCENT: notes.OneSetting = { level: 'accent' };
const mine = (file: PhraseFile): readonly ChangeFile[] => file.layers[1]!.changes ?? [];

describe('one position at a time', () => {
  it('makes one change of positions that are given the same', () => {
    const edited = [1, 9, 16].reduce(
      (file, at) => setNote(file, 2, place(at, at === 16 ? 'L' : 'R'), ACCENT),
      FILE,
    );
    expect(mine(edited)).toEqual([{ where: { positions: [1, 9, 16] }, set: { level: 'accent' } }]);
  });

  it('names the limb where another plays there too', () => {
    const edited = setNote(setNote(FILE, 2, place(3, 'R'), ACCENT), 2, place(7, 'R'), ACCENT);
    expect(mine(edited)).toEqual([
      { where: { limb: 'R', positions: [3, 7] }, set: { level: 'accent' } },
    ]);
  });

  it('takes a position out of the change when it goes back to what it was', () => {
    const two = setNote(setNote(FILE, 2, place(1, 'R'), ACCENT), 2, place(9, 'R'), ACCENT);
    const one = setNote(two, 2, place(1, 'R'), { level: 'tap' });
    expect(mine(one)).toEqual([{ where: { positions: [9] }, set: { level: 'accent' } }]);
    expect(setNote(one, 2, place(9, 'R'), { level: 'tap' })).toEqual(FILE);
  });

  it('moves a position from one value to another, each change staying one', () => {
    const loud = [1, 5, 9].reduce((file, at) => setNote(file, 2, place(at, 'R'), ACCENT), FILE);
    const soft = [5, 9].reduce(
      (file, at) => setNote(file, 2, place(at, 'R'), { level: 'ghost' }),
      loud,
    );
    expect(mine(soft)).toEqual([
      { where: { positions: [1] }, set: { level: 'accent' } },
      { where: { positions: [5, 9] }, set: { level: 'ghost' } },
    ]);
  });

  it('makes an exception to a rule and takes it back', () => {
    const rule: ChangeFile = { where: { limb: 'L' }, set: { level: 'ghost' } };
    const file = { ...FILE, layers: [FILE.layers[0]!, { name: 'Mine', changes: [rule] }] };
    const edited = setNote(file, 2, place(4, 'L'), ACCENT);
    expect(mine(edited)).toEqual([rule, { where: { positions: [4] }, set: { level: 'accent' } }]);
    expect(setNote(edited, 2, place(4, 'L'), { level: 'ghost' })).toEqual(file);
  });

  it('writes what an added stroke is given into the stroke', () => {
    const added = addNote(addNote(FILE, 2, place(6, 'F')), 2, place(2, 'F'));
    expect(mine(added)).toEqual([{ add: [place(2, 'F'), place(6, 'F')] }]);
    const splashed = setNote(added, 2, place(6, 'F'), { voice: 'hi-hat foot splash' });
    expect(mine(splashed)).toEqual([
      { add: [place(2, 'F'), { ...place(6, 'F'), voice: 'hi-hat foot splash' }] },
    ]);
    expect(mine(removeNote(splashed, 2, place(6, 'F')))).toEqual([{ add: [place(2, 'F')] }]);
  });

  it('lets a silent stroke sound again rather than adding one', () => {
    const rest = removeNote(FILE, 2, place(2, 'L'));
    expect(mine(rest)).toEqual([{ where: { positions: [2] }, set: { silent: true } }]);
    expect(addNote(rest, 2, place(2, 'L'))).toEqual(FILE);
  });
});

describe('the sticking of a position', () => {
  const step = (text: string) => parseStep(text)!;
  const bare: PhraseFile = {
    title: 'Mooring',
    meter: '4/4',
    tempoBpm: 90,
    subdivision: 4,
    grouping: 'R L  R K',
    layers: [{ name: 'Sticking' }, { name: 'Mine' }],
  };

  it('is the grouping itself on the first layer, with its spaces', () => {
    expect(setStep(bare, 1, 3, step('lR+K')).grouping).toBe('R L  lR+K K');
    expect(setStep(bare, 1, 2, []).grouping).toBe('R -  R K');
  });

  it('is a change of the layer where the grouping starts over', () => {
    const edited = setStep(FILE, 1, 9, step('K'));
    expect(edited.grouping).toBe(FILE.grouping);
    expect(edited.layers[0]!.changes).toEqual([{ where: { positions: [9] }, set: { limb: 'K' } }]);
  });

  it('on a later layer swaps limbs, adds, rests and gives grace notes', () => {
    const file = [
      [1, 'L'],
      [2, '-'],
      [3, 'R+F'],
      [4, 'K+R'],
    ].reduce((one, [at, text]) => setStep(one, 2, Number(at), step(String(text))), bare);
    expect(noteGrid(phraseOf(file), 2)).toEqual([
      'snare: L - R R',
      'bass drum: - - - K',
      'hi-hat pedal: - - F -',
    ]);
    const flam = setStep(bare, 2, 1, step('lR'));
    expect(mine(flam)).toEqual([{ where: { positions: [1] }, set: { grace: 'flam' } }]);
    expect(setStep(flam, 2, 1, step('R'))).toEqual(bare);
  });

  it('goes back to what it was without a trace', () => {
    const there = setStep(setStep(bare, 2, 1, step('K')), 2, 2, step('-'));
    expect(setStep(setStep(there, 2, 2, step('L')), 2, 1, step('R'))).toEqual(bare);
  });
});

describe('laws of positions', () => {
  const settings: fc.Arbitrary<notes.OneSetting> = fc.oneof(
    fc.constantFrom(...VOICES).map((voice) => ({ voice })),
    fc.constantFrom(...LEVELS).map((level) => ({ level })),
    fc.constant({ silent: true }),
  );
  const edits = arbitraryPhraseFile()
    .map((file) => draftFile(draftFrom(file)))
    .chain((file) =>
      fc.record({
        file: fc.constant(file),
        layer: fc.integer({ min: 1, max: file.layers.length }),
        wanted: fc.array(fc.tuple(fc.nat(), settings), { minLength: 1, maxLength: 4 }),
      }),
    );

  it('lawOnlyThat: the note has what it was given, every other note and layer what it had', () => {
    let done = 0;
    fc.assert(
      fc.property(edits, ({ file, layer, wanted }) => {
        let edited = file;
        for (const [pick, set] of wanted) {
          const before = cycleStrokes(phraseUpTo(edited, layer)!, layer);
          if (before.length === 0) return;
          const note = before[pick % before.length]!;
          edited = setNote(edited, layer, note, set);
          const phrase = phraseUpTo(edited, layer);
          if (!phrase) return;
          done++;
          const expected = new Map(before.map((one) => [noteKey(one), { ...one }]));
          if ('silent' in set) expected.delete(noteKey(note));
          else expected.set(noteKey(note), { ...note, ...set });
          const after = cycleStrokes(phrase, layer);
          expect(after.map(noteKey).sort()).toEqual([...expected.keys()].sort());
          for (const one of after)
            expect({ ...one, changed: true }).toEqual({
              ...expected.get(noteKey(one)),
              changed: true,
            });
        }
        expect(edited.layers.toSpliced(layer - 1, 1)).toEqual(file.layers.toSpliced(layer - 1, 1));
      }),
      { numRuns: runCount(60) },
    );
    expect(done).toBeGreaterThan(50);
  });
});
