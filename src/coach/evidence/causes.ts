import { layerShape } from '../../phrase/layers/layer-shape';
import { LEVELS, type Level } from '../../phrase/model/level';
import { LIMBS, limbName, type Limb } from '../../phrase/model/limb';
import type { Note } from '../../phrase/model/note';
import type { Phrase } from '../../phrase/model/phrase';
import { VOICES, voiceNumber, type Voice } from '../../phrase/model/voice';
import { groupBy } from '../../time/group-by';
import { plural } from '../../words/words';
import { partialOfBeat, partialsName } from './partial-of-beat';

/** What notes may have in common. */
export type CauseKind =
  'swing' | 'partial' | 'limb' | 'voice' | 'level' | 'layer' | 'position' | 'transition' | 'unison';

/** Notes that something may have happened to for one reason. */
export interface Cause {
  readonly kind: CauseKind;
  /** In a sentence, without an article: "left hand". */
  readonly name: string;
  /** Indices of its notes, ascending. */
  readonly notes: readonly number[];
  /** Of a layer, which one, 1-based. */
  readonly layer?: number;
  /** Of a unison, the limb that its notes are struck with, and the one that strikes with it: "right hand", "right foot". */
  readonly limbs?: readonly [string, string];
}

/** Causes that no take of these notes can tell apart, or only by a note or two. */
export interface CauseClass {
  /** Indices of the notes of the first of them, and of all other notes, ascending. */
  readonly group: readonly number[];
  readonly rest: readonly number[];
  /** The first is told, in the order in which one takes the place of the next (`allCauses`). */
  readonly causes: readonly Cause[];
  /** Those whose notes are all the others: what differs between the two is told of either. */
  readonly opposite: readonly Cause[];
}

/** Share of notes in common from which causes are one class. Chosen, not measured. */
const SAME = 0.95;

/**
 * Every cause that the notes of a layer (1-based) may have in common, in classes. Grace notes and pickups have none: they
 * lie elsewhere in time, and come too seldom.
 */
export function causesOf(phrase: Phrase, layer: number, notes: readonly Note[]): CauseClass[] {
  const places = notes.flatMap((note, i) => (isMain(note) ? [i] : []));
  const classes: (CauseClass & { readonly causes: Cause[]; readonly opposite: Cause[] })[] = [];
  for (const cause of allCauses(phrase, layer, notes, places)) {
    const group = cause.notes;
    if (group.length === 0 || group.length === places.length) continue;
    const like = classes.find((one) => inCommon(one.group, group) >= SAME);
    const unlike = like ? undefined : classes.find(({ rest }) => inCommon(rest, group) >= SAME);
    if (like) like.causes.push(cause);
    else if (unlike) unlike.opposite.push(cause);
    else classes.push({ group, rest: without(places, group), causes: [cause], opposite: [] });
  }
  return classes;
}

/** Whether a note lies in the cycle itself: no grace note, and none of the pickup. */
export const isMain = ({ graceStep, cycle }: Pick<Note, 'graceStep' | 'cycle'>): boolean =>
  graceStep === 0 && cycle > 0;

function allCauses(
  phrase: Phrase,
  layer: number,
  notes: readonly Note[],
  places: readonly number[],
): Cause[] {
  const { subdivision, swing } = layerShape(phrase, layer);
  const together = unisonPartners(notes, places);
  const moves = voicesBefore(notes, places, together);
  type Of<T> = (note: Note, at: number) => T;
  /** Those of one kind: notes with one key, named by the first of them. */
  const grouped = (
    kind: CauseKind,
    keyOf: Of<string | number | undefined>,
    nameOf: Of<string | undefined>,
  ): Cause[] =>
    [...groupBy(places, (at) => keyOf(notes[at]!, at)).values()].flatMap((of) => {
      const name = nameOf(notes[of[0]!]!, of[0]!);
      return name === undefined ? [] : [{ kind, name, notes: of }];
    });
  const inOrder = <Key extends Limb | Voice | Level>(
    kind: CauseKind,
    keys: readonly Key[],
    keyOf: Of<Key>,
    nameOf: (key: Key) => string,
  ): Cause[] => {
    const groups = groupBy(places, (at) => keyOf(notes[at]!, at));
    return keys.map((key) => ({ kind, name: nameOf(key), notes: groups.get(key) ?? [] }));
  };
  const limbsAt = (limb: Limb, at: number) =>
    [limbName(limb), limbName(together.get(at)!)] as const;
  const partialOf: Of<number> = (note) => partialOfBeat(note, subdivision);
  return [
    ...(swing
      ? grouped(
          'swing',
          (note, at) => (partialOf(note, at) % 2 === 1 ? 'off-beats' : undefined),
          () => 'off-beats',
        )
      : []),
    ...grouped(
      'partial',
      (note, at) => {
        const partial = partialOf(note, at);
        return Number.isInteger(partial) ? partial : 'between';
      },
      (note, at) => partialsName(partialOf(note, at), subdivision),
    ),
    ...inOrder('limb', LIMBS, ({ limb }) => limb, limbName),
    ...inOrder(
      'voice',
      VOICES,
      ({ voice }) => voice,
      (voice) => voice,
    ),
    ...inOrder(
      'level',
      LEVELS,
      ({ level }) => level,
      (level) => plural(2, level),
    ),
    ...phrase.layers.slice(1, layer).map(({ name }, i): Cause => ({
      kind: 'layer',
      name: `notes of “${name}”`,
      layer: i + 2,
      notes: places.filter((at) => notes[at]!.layers.includes(i + 2)),
    })),
    ...grouped(
      'position',
      ({ position, limb }, at) =>
        (LIMBS.length + 1) * position + (together.has(at) ? LIMBS.indexOf(limb) : LIMBS.length),
      ({ position, limb }, at) =>
        together.has(at) ? `position ${position}, ${limbName(limb)}` : `position ${position}`,
    ),
    ...grouped(
      'transition',
      ({ voice }, at) => {
        const from = moves[at];
        return from && VOICES.length * voiceNumber(from) + voiceNumber(voice);
      },
      ({ voice }, at) => `${moves[at]} to ${voice}`,
    ),
    ...grouped(
      'unison',
      ({ limb }, at) => {
        const partner = together.get(at);
        return partner && limb + partner;
      },
      // The comma tells whose notes they are.
      ({ limb }, at) => limbsAt(limb, at).join(', with '),
    ).map((cause) => ({ ...cause, limbs: limbsAt(notes[cause.notes[0]!]!.limb, cause.notes[0]!) })),
  ];
}

/** Of notes that are due together, the limb that each is struck with. */
function unisonPartners(notes: readonly Note[], places: readonly number[]): Map<number, Limb> {
  const partners = new Map<number, Limb>();
  for (let i = 1; i < places.length; i++) {
    const [a, b] = [places[i - 1]!, places[i]!];
    const [first, second] = [notes[a]!, notes[b]!];
    if (first.position !== second.position || first.cycle !== second.cycle) continue;
    if (!first.onset.equals(second.onset)) continue;
    partners.set(a, second.limb);
    partners.set(b, first.limb);
  }
  return partners;
}

/** Of each note, the voice from which it comes to another; undefined where two are struck at once, or it stays. */
function voicesBefore(
  notes: readonly Note[],
  places: readonly number[],
  together: ReadonlyMap<number, Limb>,
): (Voice | undefined)[] {
  const before = new Array<Voice | undefined>(notes.length).fill(undefined);
  for (let i = 1; i < places.length; i++) {
    const [last, at] = [places[i - 1]!, places[i]!];
    const from = notes[last]!.voice;
    if (from === notes[at]!.voice || together.has(at) || together.has(last)) continue;
    before[at] = from;
  }
  return before;
}

/** Notes of both over notes of either, 0 to 1; both ascending. */
function inCommon(a: readonly number[], b: readonly number[]): number {
  if (Math.min(a.length, b.length) < SAME * Math.max(a.length, b.length)) return 0;
  let both = 0;
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    const apart = a[i]! - b[j]!;
    if (apart === 0) both++;
    if (apart <= 0) i++;
    if (apart >= 0) j++;
  }
  return both / (a.length + b.length - both);
}

/** Both ascending. */
function without(all: readonly number[], some: readonly number[]): number[] {
  let next = 0;
  return all.filter((at) => {
    if (some[next] !== at) return true;
    next++;
    return false;
  });
}
