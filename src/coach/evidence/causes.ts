import { layerShape } from '../../phrase/layers/layer-shape';
import { LEVELS } from '../../phrase/model/level';
import { LIMBS, limbName, type Limb } from '../../phrase/model/limb';
import type { Note } from '../../phrase/model/note';
import type { Phrase } from '../../phrase/model/phrase';
import { VOICES, type Voice } from '../../phrase/model/voice';
import type { Beats } from '../../time/beats';
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

const isMain = ({ graceStep, cycle }: Note): boolean => graceStep === 0 && cycle > 0;

function allCauses(
  phrase: Phrase,
  layer: number,
  notes: readonly Note[],
  places: readonly number[],
): Cause[] {
  const { subdivision, swing } = layerShape(phrase, layer);
  const where = (is: (note: Note, at: number) => boolean) =>
    places.filter((at) => is(notes[at]!, at));
  const grouped = (keyOf: (note: Note, at: number) => string | undefined) => [
    ...groupBy(places, (at) => keyOf(notes[at]!, at)),
  ];
  const each = <Key>(keys: readonly Key[], keyOf: (note: Note) => Key) => {
    const groups = groupBy(places, (at) => keyOf(notes[at]!));
    return (nameOf: (key: Key) => string) =>
      keys.map((key) => [nameOf(key), groups.get(key) ?? []] as const);
  };
  const named = (kind: CauseKind, groups: readonly (readonly [string, readonly number[]])[]) =>
    groups.map(([name, of]): Cause => ({ kind, name, notes: of }));
  const together = unisonPartners(notes, places);
  const partialName = nameOnce((beat: Beats, _: undefined) =>
    partialsName(partialOfBeat({ beat }, subdivision), subdivision),
  );
  const positionName = nameOnce((position: number, limb: Limb | undefined) =>
    limb ? `position ${position}, ${limbName(limb)}` : `position ${position}`,
  );
  const unisonName = nameOnce(
    (limb: Limb, partner: Limb) => `${limbName(limb)} with ${limbName(partner)}`,
  );
  return [
    ...(swing
      ? named('swing', [['off-beats', where((note) => partialOfBeat(note, subdivision) % 2 === 1)]])
      : []),
    ...named(
      'partial',
      grouped(({ beat }) => partialName(beat, undefined)),
    ),
    ...named('limb', each(LIMBS, ({ limb }) => limb)(limbName)),
    ...named('voice', each(VOICES, ({ voice }) => voice)(String)),
    ...named(
      'level',
      each(LEVELS, ({ level }) => level)((level) => plural(2, level)),
    ),
    ...phrase.layers.slice(1, layer).map(({ name }, i): Cause => ({
      kind: 'layer',
      name: `notes of “${name}”`,
      layer: i + 2,
      notes: where(({ layers }) => layers.includes(i + 2)),
    })),
    ...named(
      'position',
      grouped(({ position, limb }, at) =>
        positionName(position, together.has(at) ? limb : undefined),
      ),
    ),
    ...named('transition', grouped(transitionName(notes, places, together))),
    ...named(
      'unison',
      grouped(({ limb }, at) => {
        const partner = together.get(at);
        return partner && unisonName(limb, partner);
      }),
    ),
  ];
}

/** A name for each pair, made once: there may be tens of thousands of notes. */
function nameOnce<A, B, Name extends string | undefined>(
  nameOf: (a: A, b: B) => Name,
): (a: A, b: B) => Name {
  const known = new Map<A, Map<B, Name>>();
  return (a, b) => {
    const names = known.get(a) ?? new Map<B, Name>();
    if (names.size === 0) known.set(a, names);
    if (!names.has(b)) names.set(b, nameOf(a, b));
    return names.get(b)!;
  };
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

/** From which voice a note comes to another; undefined where two are struck at once, or it stays. */
function transitionName(
  notes: readonly Note[],
  places: readonly number[],
  together: ReadonlyMap<number, Limb>,
): (note: Note, at: number) => string | undefined {
  const before = new Int32Array(notes.length).fill(-1);
  for (let i = 1; i < places.length; i++) before[places[i]!] = places[i - 1]!;
  const nameOf = nameOnce((from: Voice, to: Voice) => `${from} to ${to}`);
  return ({ voice }, at) => {
    const last = before[at]!;
    if (last < 0 || together.has(at) || together.has(last)) return undefined;
    const from = notes[last]!.voice;
    return from === voice ? undefined : nameOf(from, voice);
  };
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
