import { startingVoice } from '../layers/layer-stroke';
import { LIMBS, type Limb } from '../model/limb';
import type { Change } from '../model/phrase';
import type { Voice } from '../model/voice';
import type { AppliedChanges } from './apply-selection';
import {
  mainCell,
  numbered,
  pickupCell,
  restCell,
  type Cell,
  type Sheet,
  withGraceCells,
} from './cell';
import { rootStroke, type Root } from './find-roots';
import { layAspect, wordsOf } from './lay-aspect';
import { byFamily } from './name-layer';
import type { PatternNote, PatternPickup, PatternStroke } from './target-pattern';

/** A layer that was found. */
export interface FreshLayer {
  readonly name: string;
  readonly changes: readonly Change[];
}

/** How the strokes that are written one by one get their levels, and when. */
interface Manner {
  /** Ghosts among them come as taps and are left to the dynamics. */
  readonly ghostsLater: boolean;
  readonly pickupLast: boolean;
}
const MANNERS: readonly Manner[] = [
  { ghostsLater: true, pickupLast: false },
  { ghostsLater: false, pickupLast: false },
  { ghostsLater: true, pickupLast: true },
  { ghostsLater: false, pickupLast: true },
];

/**
 * Ordered layers after the first that turn a root into the pattern, of fewest words among those
 * tried; undefined when its notes cannot be told apart, or surely not in so few words.
 */
export function buildLayers(
  notes: readonly PatternNote[],
  pickup: readonly PatternPickup[],
  root: Root,
  sheet: Sheet,
  mostWords: number,
): readonly FreshLayer[] | undefined {
  const inRoot = (note: PatternNote) => rootStroke(root, note) !== undefined;
  const rootCells: Cell[] = [];
  for (const note of notes.filter(inRoot)) {
    const start = { voice: startingVoice(note.limb), level: 'tap' as const };
    const main = mainCell(sheet, note.partial, rootCells.length, start, note);
    const hands = [...rootStroke(root, note)!.slice(0, -1)] as Limb[];
    rootCells.push(...(root.withGraces ? withGraceCells(main, hands) : [main]));
  }
  for (const { partial, limb } of root.rests)
    rootCells.push(restCell(sheet, partial, rootCells.length, limb));
  const rested = layAspect(
    numbered(rootCells, sheet),
    { aspect: 'silent', isGrace: false, values: [true], overrides: false },
    sheet,
  );
  if (!rested || cost(rested) > mostWords) return undefined;
  const added = notes.filter((note) => !inRoot(note));
  const manners = MANNERS.filter(
    ({ ghostsLater, pickupLast }) =>
      (pickup.length > 0 || !pickupLast) &&
      (!ghostsLater || [...added, ...pickup].some((stroke) => stroke.level === 'ghost')),
  );
  let best: readonly FreshLayer[] | undefined;
  const accents = layAspect(
    rested.cells,
    { aspect: 'level', isGrace: false, values: ['accent'], overrides: false },
    sheet,
  );
  const voiced = accents && orchestrated(accents.cells, sheet);
  if (!voiced || cost(rested) + cost(accents) + cost(voiced) > mostWords) return undefined;
  for (const manner of manners) {
    const rest = finished(voiced, added, pickup, manner, sheet);
    if (!rest) continue;
    const layers = [
      ...layer('Rests', rested.changes),
      ...layer('Accents', accents.changes),
      ...byFamily(voiced.changes),
      ...rest,
    ];
    if (!best || lengthOf(layers) < lengthOf(best)) best = layers;
  }
  return best;
}

const layer = (name: string, changes: readonly Change[]): FreshLayer[] =>
  changes.length > 0 ? [{ name, changes }] : [];

const lengthOf = (layers: readonly FreshLayer[]): number =>
  layers.reduce((sum, { changes }) => sum + 1 + wordsOf(changes), 0);

/** The voices of the main notes, in the order that says it in fewest words. */
function orchestrated(cells: readonly Cell[], sheet: Sheet): AppliedChanges | undefined {
  const moved = cells.filter((cell) => !cell.isGrace && cell.voice !== cell.wants.voice);
  const counts = new Map<Voice, number>();
  for (const { wants } of moved) counts.set(wants.voice, (counts.get(wants.voice) ?? 0) + 1);
  const voices = [...counts.keys()].sort((a, b) => counts.get(b)! - counts.get(a)!);
  let best: AppliedChanges | undefined;
  for (const values of orders(voices))
    for (const overrides of [false, true]) {
      const laid = layAspect(cells, { aspect: 'voice', isGrace: false, values, overrides }, sheet);
      if (laid && (!best || cost(laid) < cost(best))) best = laid;
    }
  return best;
}

/** Words of changes and of the names of their layers, at least. */
const cost = ({ changes }: AppliedChanges): number => wordsOf(changes) + byFamily(changes).length;

/** Every order of a few, or the most frequent first and last. */
function orders<T>(items: readonly T[]): readonly (readonly T[])[] {
  if (items.length > 3) return [items, items.toReversed()];
  if (items.length < 2) return [items];
  return items.flatMap((item) =>
    orders(items.filter((other) => other !== item)).map((rest) => [item, ...rest]),
  );
}

/** Pickup, added strokes, grace notes and dynamics. */
function finished(
  voiced: AppliedChanges,
  added: readonly PatternNote[],
  pickup: readonly PatternPickup[],
  { ghostsLater, pickupLast }: Manner,
  sheet: Sheet,
): FreshLayer[] | undefined {
  const startOf = (stroke: PatternStroke) => ({
    voice: stroke.voice,
    level: ghostsLater && stroke.level === 'ghost' ? ('tap' as const) : stroke.level,
  });
  const cells = voiced.cells.slice();
  for (const note of added)
    cells.push(mainCell(sheet, note.partial, cells.length, startOf(note), note));
  const pickupCells = pickup.map((stroke, i) =>
    pickupCell(sheet, cells.length + i, startOf(stroke), stroke),
  );
  const written = pickup.map((stroke) => ({
    partialsBefore: stroke.partialsBefore,
    ...spoken(stroke.limb, startOf(stroke)),
  }));
  const pickupLayer = layer(
    'Pickup',
    pickup.length > 0 ? [{ kind: 'pickup', pickup: written }] : [],
  );
  const addedLayers = LIMBS.flatMap((limb) => {
    const add = added
      .filter((note) => note.limb === limb && note.partial < sheet.cycle)
      .map((note) => ({ position: note.partial + 1, ...spoken(limb, startOf(note)) }));
    return layer(ADDED_NAMES[limb], add.length > 0 ? [{ kind: 'add', add }] : []);
  });
  const late = pickupLast ? pickupCells : [];
  const ready = numbered(pickupLast ? cells : [...cells, ...pickupCells], sheet);
  const soft = softened(ready, sheet);
  if (!soft) return undefined;
  if (late.some((cell) => cell.graceWants.length > 0 || cell.level !== cell.wants.level))
    return undefined;
  return pickupLast
    ? [...addedLayers, ...soft, ...pickupLayer]
    : [...pickupLayer, ...addedLayers, ...soft];
}

const ADDED_NAMES: Readonly<Record<Limb, string>> = {
  R: 'Right hand between',
  L: 'Left hand between',
  K: 'Bass drum',
  F: 'Hi-hat foot',
};

/** A stroke as it is written by itself: without what is only its limb's start. */
const spoken = (
  limb: Limb,
  { voice, level }: Pick<PatternStroke, 'voice' | 'level'>,
): Pick<PatternStroke, 'limb'> & Partial<PatternStroke> => ({
  limb,
  ...(voice !== startingVoice(limb) && { voice }),
  ...(level !== 'tap' && { level }),
});

/** Grace notes, then what sounds softer than a tap. */
function softened(cells: readonly Cell[], sheet: Sheet): FreshLayer[] | undefined {
  let laid: AppliedChanges = { changes: [], cells };
  const graces = [1, 2].map(
    (count) => ({ aspect: 'grace', isGrace: false, values: [count], overrides: false }) as const,
  );
  const each = <K extends 'limb' | 'voice' | 'level' | 'silent'>(aspect: K) => {
    const values = [...new Set(laid.cells.filter((c) => c.isGrace).map((c) => c.wants[aspect]))];
    return { aspect, isGrace: true, values, overrides: false };
  };
  for (const aim of graces) {
    const step = layAspect(laid.cells, aim, sheet);
    if (!step) return undefined;
    laid = { changes: [...laid.changes, ...step.changes], cells: step.cells };
  }
  for (const aspect of ['voice', 'level', 'silent', 'limb'] as const) {
    const step = layAspect(laid.cells, each(aspect), sheet);
    if (!step) return undefined;
    laid = { changes: [...laid.changes, ...step.changes], cells: step.cells };
  }
  const ghosts = layAspect(
    laid.cells,
    { aspect: 'level', isGrace: false, values: ['ghost'], overrides: false },
    sheet,
  );
  return ghosts && [...layer('Grace notes', laid.changes), ...layer('Ghosts', ghosts.changes)];
}
