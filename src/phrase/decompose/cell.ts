import { remainder } from '../../time/whole';
import { startingVoice } from '../layers/layer-stroke';
import type { Limb } from '../model/limb';
import type { NoteSound } from '../model/note';
import type { GraceSound, PatternPickup, PatternStroke } from './target-pattern';

/** One note while a pattern is being rebuilt: what it is so far and what it should become. */
export interface Cell extends NoteAspects {
  /** Place in the list of the main note it belongs to; its own for a main note. */
  readonly main: number;
  readonly isGrace: boolean;
  readonly isPickup: boolean;
  /** 1-based partial of the cycle; in a pickup, minus the partials before the downbeat. */
  readonly position: number;
  /** Partials from bar 1 beat 1, and from the last bar line. */
  readonly partial: number;
  readonly partialOfBar: number;
  /** 1-based count of the main note's limb in the cycle; 0 in a pickup. */
  readonly nth: number;
  readonly wants: NoteAspects;
  readonly graceWants: readonly NoteAspects[];
}

/** What can still change about a note. `grace` is a main note's count of grace notes. */
export interface NoteAspects extends NoteSound {
  readonly silent: boolean;
  readonly grace: number;
}
export type Aspect = keyof NoteAspects;

/** What a main note should become. */
const wantsOf = ({ limb, voice, level, graces }: PatternStroke): NoteAspects => ({
  limb,
  voice,
  level,
  silent: false,
  grace: graces?.length ?? 0,
});

/** What each grace note of a stroke should become, first to sound first. */
const graceWants = ({ voice, graces = [], graceSounds }: PatternStroke): readonly NoteAspects[] =>
  graces.map((limb, i) => {
    const sound = graceSounds ? graceSounds[i] : { voice, level: 'tap' as const };
    return {
      limb,
      voice: sound?.voice ?? voice,
      level: sound?.level ?? 'tap',
      silent: sound === null,
      grace: 0,
    };
  });

/** Where the cells lie: one number space for all of them. */
export interface Sheet {
  readonly cycle: number;
  readonly subdivision: number;
  readonly barPartials: number;
  readonly displace: number;
  /** Partials that the cells cover, from the first cycle's start. */
  readonly span: number;
}

/** A main note somewhere in the span, `offset` partials from its start. */
export function mainCell(
  sheet: Sheet,
  offset: number,
  index: number,
  start: GraceSound,
  stroke: PatternStroke,
): Cell {
  const partial = sheet.displace + offset;
  const position = (offset % sheet.cycle) + 1;
  return { ...freshCell(sheet, index, partial, start, stroke), position };
}

/** A stroke of the root that rests in this place of the span. */
export function restCell(sheet: Sheet, offset: number, index: number, limb: Limb): Cell {
  const start = { voice: startingVoice(limb), level: 'tap' as const };
  const cell = mainCell(sheet, offset, index, start, { limb, ...start });
  return { ...cell, wants: { ...cell.wants, silent: true } };
}

/** A pickup's main note. */
export const pickupCell = (
  sheet: Sheet,
  index: number,
  start: GraceSound,
  stroke: PatternPickup,
): Cell => ({
  ...freshCell(sheet, index, -stroke.partialsBefore, start, stroke),
  isPickup: true,
});

const freshCell = (
  sheet: Sheet,
  index: number,
  partial: number,
  { voice, level }: GraceSound,
  stroke: PatternStroke,
): Cell => ({
  main: index,
  isGrace: false,
  isPickup: false,
  position: partial,
  partial,
  partialOfBar: remainder(partial, sheet.barPartials),
  nth: 0,
  limb: stroke.limb,
  voice,
  level,
  silent: false,
  grace: 0,
  wants: wantsOf(stroke),
  graceWants: graceWants(stroke),
});

/** A main note's grace notes by these hands, at tap level on its voice. */
export const graceCells = (main: Cell, limbs: readonly Limb[]): Cell[] =>
  limbs.map((limb, i) => ({
    ...main,
    isGrace: true,
    limb,
    level: 'tap',
    grace: 0,
    wants: main.graceWants[i]!,
    graceWants: [],
  }));

/** A main note with the grace notes that a grouping writes for it; of those ahead of the ones that it wants, each rests. */
export function withGraceCells(main: Cell, hands: readonly Limb[]): Cell[] {
  const { wants, graceWants } = main;
  const rests = hands
    .slice(0, hands.length - graceWants.length)
    .map((limb) => ({ ...wants, limb, level: 'tap' as const, silent: true, grace: 0 }));
  const graced = {
    ...main,
    grace: hands.length,
    wants: { ...wants, grace: hands.length },
    graceWants: [...rests, ...graceWants],
  };
  return [graced, ...graceCells(graced, hands)];
}

/** Counts the strokes of every limb in every cycle anew. */
export function numbered(cells: readonly Cell[], sheet: Sheet): Cell[] {
  const order = cells
    .map((_, index) => index)
    .filter((index) => !cells[index]!.isGrace && !cells[index]!.isPickup)
    .sort((a, b) => cells[a]!.partial - cells[b]!.partial);
  const counts = new Map<string, number>();
  const nths = new Map<number, number>();
  for (const index of order) {
    const { limb, partial } = cells[index]!;
    const key = `${limb}${Math.floor((partial - sheet.displace) / sheet.cycle)}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
    nths.set(index, counts.get(key)!);
  }
  return cells.map((cell) => ({ ...cell, nth: nths.get(cell.main) ?? 0 }));
}
