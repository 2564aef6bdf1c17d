import { describe, expect, it } from 'vitest';
import type { FindingCode } from '../../../src/coach/wording';
import type { TimedNote } from '../../../src/match/timed-note';
import { answer, due } from '../../score/cases';
import { causesOf, nearlyAlike, partialOf, transitionsOf, unisonsOf } from './causes';
import { isNeutral, kindOf, names, type ReadFinding, type Truth } from './naming';
import { PIECES } from './phrases';

const notes = Array.from({ length: 40 }, (_, i) =>
  answer(due(100 * i, { limb: i % 2 === 0 ? 'R' : 'L' }), { offsetMs: 0 }),
);
const isLeft = (one: (typeof notes)[0]) => one.due.note.limb === 'L';
const lefts = notes.filter(isLeft).map((one) => one.due);
const rights = notes.filter((one) => !isLeft(one)).map((one) => one.due);

const LATE: Truth = { kinds: ['time'], sign: 1, touches: isLeft };
const said = (
  text: string,
  about?: readonly TimedNote[],
  code: FindingCode = 'limb off',
): ReadFinding => ({
  code,
  text,
  notes: about,
});
const isNaming = (finding: ReadFinding, truth = LATE) => names(finding, [truth], notes);

describe('what names a fault', () => {
  it('is of its kind, with its notes, on its side', () => {
    expect(isNaming(said('Left hand 12 ms late.', lefts))).toBe(true);
    expect(isNaming(said('Left hand 12 ms behind the rest.', lefts))).toBe(true);
    expect(isNaming(said('Second partial 12 ms late.', lefts, 'partial off'))).toBe(true);
    expect(isNaming(said('Left hand 12 ms early.', lefts))).toBe(false);
    expect(isNaming(said('Right hand 12 ms late.', rights))).toBe(false);
    expect(isNaming(said('Left hand spreads 20 ms.', lefts, 'spread apart'))).toBe(false);
    expect(isNaming(said('Nothing stands out.', lefts, 'nothing stands out'))).toBe(false);
    expect(names(said('Left hand 12 ms late.', lefts), [], notes)).toBe(false);
  });

  it('needs 95 % of the notes of both', () => {
    expect(isNaming(said('Late.', lefts.slice(1)))).toBe(true);
    expect(isNaming(said('Late.', lefts.slice(2)))).toBe(false);
    expect(isNaming(said('Late.', [...lefts, rights[0]!]))).toBe(true);
    expect(isNaming(said('Late.', [...lefts, ...rights.slice(0, 2)]))).toBe(false);
  });

  it('needs none where the coach does not say which, or they do not matter', () => {
    expect(isNaming(said('Left hand 12 ms late.'))).toBe(true);
    expect(
      isNaming(said('Bounces.', [], 'bounces'), { kinds: ['extras'], sign: 0, touches: undefined }),
    ).toBe(true);
  });

  it('is about the take as a whole where it is about no notes', () => {
    const truth: Truth = { kinds: ['drift'], sign: -1, touches: () => true };
    expect(isNaming(said('Rushing: 60 ms over the take.', [], 'drift'), truth)).toBe(true);
    expect(isNaming(said('Dragging: 60 ms over the take.', [], 'drift'), truth)).toBe(false);
    expect(isNaming(said('Left hand 12 ms late.', []))).toBe(false);
  });

  it('may tell a contrast of either side', () => {
    const truth: Truth = { kinds: ['contrast'], sign: 0, touches: isLeft };
    expect(isNaming(said('13 dB.', rights, 'contrast'), truth)).toBe(true);
    expect(isNaming(said('12 ms late', rights), { ...LATE, sign: 0 })).toBe(false);
  });

  it('says the tempo that was played, where it is another', () => {
    const truth: Truth = { kinds: ['tempo'], sign: 0, touches: () => true, bpm: 87.2 };
    const tempo = (text: string) => isNaming(said(text, [], 'other tempo'), truth);
    expect(tempo('You play 87, the click is 95.')).toBe(true);
    expect(tempo('You play 88, the click is 95.')).toBe(true);
    expect(tempo('You play 86, the click is 95.')).toBe(false);
    expect(tempo('You play another tempo.')).toBe(false);
  });

  it('may be a neutral fact', () => {
    expect(isNeutral(said('Left hand 12 ms behind the rest, steadily: unless it is meant.'))).toBe(
      true,
    );
    expect(isNeutral(said('Left hand 12 ms late.'))).toBe(false);
  });

  it('is nothing that claims nothing', () => {
    const silent = ['even', 'nothing stands out', 'undecided'] as const;
    expect(silent.map((code) => kindOf({ code }))).toEqual([undefined, undefined, undefined]);
  });
});

describe('causes', () => {
  it('count partials before the swing', () => {
    const partials = PIECES.swungHands2to1.notes(1).map((one) => partialOf(one, 2));
    expect(partials).toEqual([1, 2, 1, 2, 1, 2, 1, 2]);
    expect(
      PIECES.triplets2
        .notes(1)
        .map((one) => partialOf(one, 3))
        .join(''),
    ).toBe('123123123123');
  });

  it('know what follows on what, and what sounds together', () => {
    // R L floor, L R, L high, K, R floor ...: as it is written in the phrase, two bars.
    const transitions = transitionsOf(PIECES.round16.notes(2));
    expect([...transitions.get('snare to high tom')!].map(({ note }) => note.position)).toEqual([
      6, 11, 6, 11,
    ]);
    expect(
      [...transitions.get('bass drum to floor tom')!].map(({ note }) => note.position),
    ).toEqual([8, 8]);
    const groove = unisonsOf(PIECES.groove.notes(1));
    expect(groove.map(({ note }) => `${note.position} ${note.limb}`).sort()).toEqual(
      ['1 K', '1 R', '3 L', '3 R', '5 K', '5 R', '6 K', '6 R', '7 L', '7 R'].sort(),
    );
  });

  it('find what a phrase hardly tells apart, and leave out what is the same', () => {
    const piece = PIECES.sixteenths15;
    const all = piece.notes(2);
    const causes = causesOf(all, 4, piece.layer);
    const near = (name: string) => nearlyAlike(causes.get(name)!, causes, 2);
    // High toms on positions 3 and 9, a floor tom on 12: in two bars 4 + 2, and what the layer changed is both. The
    // bass drum is the right foot's and nothing else, so both are the same.
    expect(near('layer 2')).toContainEqual({ name: 'voice high tom', apart: 2 });
    expect(near('voice high tom')).toContainEqual({ name: 'layer 2', apart: 2 });
    expect(near('voice bass drum').map(({ name }) => name)).not.toContain('limb K');
    expect(near('limb R').map(({ name }) => name)).not.toContain('limb L');
  });
});
