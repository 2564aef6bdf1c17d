import { DraftCheck } from '../check/draft-check';
import { expand } from '../layers/expand';
import { soundsSame } from '../layers/same-sound';
import { isHand, type Limb } from '../model/limb';
import type { AddedStroke, Change, Phrase } from '../model/phrase';
import type { LayerDraft, PhraseDraft } from '../model/phrase-draft';
import { writeOut } from '../vary/write-out';

/** A form, in partials from bar 1 beat 1. */
export interface FormPlace {
  readonly form: number;
  /** Where the phrase resolves. */
  readonly end: number;
  /** Where its last whole cycle ends. */
  readonly whole: number;
  /** How far the phrase was displaced, which is taken back. */
  readonly displace: number;
}

/** Forms looked through for what sounds at a place: where accents of their own move on from form to form. */
const FORMS = 3;

/**
 * A phrase's file with the form for its cycle: whole cycles as far as they go, and one more layer that fills up to the
 * end with single strokes hand to hand. When the end lies inside the form, the first stroke of the cycle falls on it
 * and the form rests after it.
 */
export function withTail(phrase: Phrase, place: FormPlace): PhraseDraft {
  const { end, whole, displace } = place;
  const lastHand = phrase.grouping.flat().findLast(({ limb }) => isHand(limb))?.limb;
  const tail = Array.from({ length: end - whole }, (_, i): AddedStroke => {
    const isRight = (i % 2 === 0) === (lastHand !== 'R');
    return { position: whole + i + 1, limb: isRight ? 'R' : 'L' };
  });
  return withLast(formDraft(phrase, place, whole), 'Tail', [
    ...displacement(-displace),
    { kind: 'add', add: tail },
  ]);
}

/**
 * The same with the beginning of one more cycle in place of the tail. The last layer lets it sound where the layers
 * before it can be kept silent there; where that would change the phrase, they have it from the start.
 */
export function withCutCycle(phrase: Phrase, place: FormPlace): PhraseDraft {
  const { end, whole, displace } = place;
  const name = 'Last cycle cut';
  const draft = formDraft(phrase, place, end);
  const plain = displace === 0 ? draft : withLast(draft, name, displacement(-displace));
  const all = new DraftCheck(plain).stack;
  if (!all) return plain;
  const layered = withLast(silencedLayers(draft, whole + 1, end), name, [
    ...displacement(-displace),
    ...sounding(all.phrase, whole + 1, end),
  ]);
  const found = new DraftCheck(layered).stack;
  return found && soundsSame(found, all) ? layered : plain;
}

/** The phrase's own strokes up to a partial of the form. */
const formDraft = (phrase: Phrase, { form, end }: FormPlace, played: number): PhraseDraft =>
  writeOut(phrase, form, (partial) =>
    partial < played ? partial % phrase.cycle : partial === end ? 0 : undefined,
  );

const withLast = (draft: PhraseDraft, name: string, changes: Change[]): PhraseDraft => ({
  ...draft,
  layers: [...draft.layers, { name, changes }],
});

export const displacement = (by: number): Change[] =>
  by === 0 ? [] : [{ kind: 'displace', displace: by }];

/** The layers with nothing to hear on some positions, whatever they add or let sound there. */
function silencedLayers(draft: PhraseDraft, from: number, to: number): PhraseDraft {
  const positions = Array.from({ length: to - from + 1 }, (_, i) => from + i);
  const silence: Change = { kind: 'set', where: { positions }, set: { silent: true } };
  const sounds = (change: Change) =>
    change.kind === 'add' || (change.kind === 'set' && change.set.silent === false);
  const layers = draft.layers.map((layer, i): LayerDraft => {
    const { changes } = layer;
    return i === 0 || changes.some(sounds) ? { ...layer, changes: [...changes, silence] } : layer;
  });
  return { ...draft, layers };
}

/** Changes that let those notes sound that sound in a phrase on some positions. */
function sounding(phrase: Phrase, from: number, to: number): Change[] {
  const positions = new Map<Limb, Set<number>>();
  for (const note of expand(phrase, phrase.layers.length, { cycles: FORMS })) {
    if (note.position < from || note.position > to || note.graceStep > 0) continue;
    const known = positions.get(note.limb) ?? new Set();
    positions.set(note.limb, known.add(note.position));
  }
  return [...positions].map(([limb, found]) => ({
    kind: 'set',
    where: { limb, positions: [...found].sort((a, b) => a - b) },
    set: { silent: false },
  }));
}
