import { NOTEHEADS } from '../../notation/notehead';
import { isHand } from '../../phrase/model/limb';
import { voiceNumber } from '../../phrase/model/voice';
import type { ScoreContent, ScoreNote } from '../../notation/score-columns';
import { scoreLines, type ScoreLineContent } from '../../notation/score-lines';
import { clamp } from '../../time/whole';

/** Sizes and heights of a score line, CSS pixels from the top of each of its lines. */
export interface ScoreLayout {
  readonly lines: readonly ScoreLineContent[];
  /** Of each line: what was given, or more where all is on one line. */
  readonly width: number;
  /** A staff space: a notehead is about one of them high. */
  readonly space: number;
  /** Width of one partial. */
  readonly slot: number;
  /** Where the first partial's slot begins. */
  readonly left: number;
  readonly height: number;
  readonly barY: number;
  readonly countY: number;
  readonly signY: number;
  readonly accentY: number;
  readonly tupletY: number;
  readonly beamY: number;
  readonly middleY: number;
  readonly letterY: number;
  readonly letterLine: number;
  readonly hasBars: boolean;
  /** Whether closed hi-hats carry their plus: only beside open ones. */
  readonly closedSigns: boolean;
}

export interface ScoreLayoutInput {
  readonly content: ScoreContent;
  readonly width: number;
  /** Notes can be chosen, so each needs room for a finger. */
  readonly interactive: boolean;
  /** Not wrapped, however long it is. */
  readonly oneLine?: boolean;
}

/** Narrowest and widest partial. Chosen, not measured. */
const SLOT = { picture: 27, toggles: 36, most: 60 } as const;
const SPACE = { least: 7.5, most: 12 } as const;
/** Clef and meter, staff spaces. */
const FRONT_SPACES = 5.4;
const STEM_SPACES = 3.2;
const COUNT_PX = 22;

/** Where everything of a score line goes in a width, wrapped where it is too long for it unless it is to be one line. */
export function scoreLayout({
  content,
  width: given,
  interactive,
  oneLine = false,
}: ScoreLayoutInput): ScoreLayout {
  const least = interactive ? SLOT.toggles : SLOT.picture;
  const front = FRONT_SPACES * SPACE.least;
  const columnCount = content.columns.length;
  const width = oneLine
    ? Math.max(given, FRONT_SPACES * SPACE.most + columnCount * least + 2)
    : given;
  const lines = scoreLines(content, oneLine ? columnCount : (width - front) / least);
  const longest = Math.max(...lines.map(({ from, to }) => to - from));
  const roughly = Math.min(SLOT.most, (width - front) / longest);
  const space = clamp(roughly / 3.8, SPACE.least, SPACE.most);
  const left = FRONT_SPACES * space;
  const slot = Math.min(SLOT.most, (width - left - 2) / longest);

  const notes = content.columns.flatMap((column) => column.notes);
  const graces = notes.flatMap((note) => note.graces);
  const places = [...notes, ...graces].map(({ place }) => place);
  const top = Math.max(1, ...places);
  const bottom = Math.min(-4, ...places);
  const hasBars = new Set(content.columns.map(({ bar }) => bar)).size > 1;
  const closedSigns = notes.some(({ voice }) => voice === 'hi-hat open');
  const hasSigns = notes.some((note) => signAbove(note, closedSigns) !== '');
  const hasAccents = notes.some(({ level, limb }) => level === 'accent' && isHand(limb));
  const hasFootAccents = notes.some(({ level, limb }) => level === 'accent' && !isHand(limb));
  const hasFootSigns = notes.some(({ voice }) => NOTEHEADS[voiceNumber(voice)]!.signBelow);
  const hasTuplets = lines.some(({ tuplets }) => tuplets.length > 0);
  const stacked = Math.max(1, ...content.columns.map((column) => column.notes.length));

  let y = 0;
  const down = (by: number) => (y += by);
  const barY = down(hasBars ? 17 : 0);
  const countY = down(COUNT_PX) - 5;
  const signY = down(hasSigns ? 1.3 * space : 0);
  const accentY = down(hasAccents ? 1.25 * space : 0);
  const tupletY = down(hasTuplets ? 1.7 * space : 0);
  const beamY = down(0.5 * space);
  const middleY = down((top / 2 + STEM_SPACES) * space);
  const letterLine = Math.round(Math.max(26, 2.3 * space));
  const under = (hasFootAccents || hasFootSigns ? 1.3 : 0) + 0.9;
  const letterY = middleY + (-bottom / 2 + under) * space + letterLine * 0.72;
  return {
    lines,
    width,
    space,
    slot,
    left,
    height: Math.ceil(letterY + letterLine * (stacked - 1) + 12),
    barY: barY - 4,
    countY,
    signY: signY - 0.1 * space,
    accentY: accentY - 0.2 * space,
    tupletY: tupletY - 0.25 * space,
    beamY,
    middleY,
    letterY,
    letterLine,
    hasBars,
    closedSigns,
  };
}

/** The sign over a note's column, or nothing. */
export function signAbove({ voice }: Pick<ScoreNote, 'voice'>, closedSigns: boolean): string {
  const { sign, signBelow } = NOTEHEADS[voiceNumber(voice)]!;
  return signBelow || (voice === 'hi-hat closed' && !closedSigns) ? '' : sign;
}
