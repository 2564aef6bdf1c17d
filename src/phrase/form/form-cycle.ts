import { expand } from '../layers/expand';
import { isHand, type Limb } from '../model/limb';
import { checkPhrase } from '../file/parse-phrase';
import type { Phrase } from '../model/phrase';
import type { AddedFile, ChangeFile, LayerFile, PhraseFile } from '../model/phrase-file';
import { writeOut } from '../vary/write-out';
import { phraseFile } from '../file/write-phrase';

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

/** Forms laid side by side when two ways of writing are compared: where accents of their own move on from form to form. */
const COMPARED_FORMS = 3;

/**
 * A phrase's file with the form for its cycle: whole cycles as far as they go, and one more layer that fills up to the
 * end with single strokes hand to hand. When the end lies inside the form, the first stroke of the cycle falls on it
 * and the form rests after it.
 */
export function withTail(phrase: Phrase, place: FormPlace): PhraseFile {
  const { end, whole, displace } = place;
  const lastHand = phrase.grouping.flat().findLast(({ limb }) => isHand(limb))?.limb;
  const tail = Array.from({ length: end - whole }, (_, i): AddedFile => {
    const isRight = (i % 2 === 0) === (lastHand !== 'R');
    return { position: whole + i + 1, limb: isRight ? 'R' : 'L' };
  });
  return withLast(formFile(phrase, place, whole), 'Tail', [
    ...displacement(-displace),
    { add: tail },
  ]);
}

/**
 * The same with the beginning of one more cycle in place of the tail. The last layer lets it sound where the layers
 * before it can be kept silent there; where that would change the phrase, they have it from the start.
 */
export function withCutCycle(phrase: Phrase, place: FormPlace): PhraseFile {
  const { end, whole, displace } = place;
  const name = 'Last cycle cut';
  const file = formFile(phrase, place, end);
  const plain = displace === 0 ? file : withLast(file, name, displacement(-displace));
  const all = checked(plain);
  if (!all) return plain;
  const layered = withLast(silencedLayers(file, whole + 1, end), name, [
    ...displacement(-displace),
    ...sounding(all, whole + 1, end),
  ]);
  const found = checked(layered);
  return found && heard(found) === heard(all) ? layered : plain;
}

/** The phrase's own strokes up to a partial of the form. */
const formFile = (phrase: Phrase, { form, end }: FormPlace, played: number): PhraseFile =>
  phraseFile(
    writeOut(phrase, form, (partial) =>
      partial < played ? partial % phrase.cycle : partial === end ? 0 : undefined,
    ),
  );

const withLast = (file: PhraseFile, name: string, changes: ChangeFile[]): PhraseFile => ({
  ...file,
  layers: [...file.layers, { name, changes }],
});

export const displacement = (by: number): ChangeFile[] => (by === 0 ? [] : [{ displace: by }]);

/** The layers with nothing to hear on some positions, whatever they add or let sound there. */
function silencedLayers(file: PhraseFile, from: number, to: number): PhraseFile {
  const positions = Array.from({ length: to - from + 1 }, (_, i) => from + i);
  const silence: ChangeFile = { where: { positions }, set: { silent: true } };
  const sounds = (change: ChangeFile) =>
    'add' in change || ('set' in change && change.set.silent === false);
  const layers = file.layers.map((layer, i): LayerFile => {
    const changes = layer.changes ?? [];
    return i === 0 || changes.some(sounds) ? { ...layer, changes: [...changes, silence] } : layer;
  });
  return { ...file, layers };
}

/** Changes that let those notes sound that sound in a phrase on some positions. */
function sounding(phrase: Phrase, from: number, to: number): ChangeFile[] {
  const positions = new Map<Limb, Set<number>>();
  for (const note of expand(phrase, phrase.layers.length, { cycles: COMPARED_FORMS })) {
    if (note.position < from || note.position > to || note.graceStep > 0) continue;
    const known = positions.get(note.limb) ?? new Set();
    positions.set(note.limb, known.add(note.position));
  }
  return [...positions].map(([limb, found]) => ({
    where: { limb, positions: [...found].sort((a, b) => a - b) },
    set: { silent: false },
  }));
}

function checked(file: PhraseFile): Phrase | undefined {
  const found = checkPhrase(file);
  return found.ok ? found.value : undefined;
}

/** All that is heard of a phrase in some forms, as text. */
const heard = (phrase: Phrase): string =>
  expand(phrase, phrase.layers.length, { cycles: COMPARED_FORMS })
    .map((n) => [n.onset.toFraction(), n.graceStep, n.limb, n.voice, n.level].join(' '))
    .join('\n');
