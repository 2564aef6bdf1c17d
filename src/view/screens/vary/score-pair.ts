import { gridAt } from '../../../phrase/grid';
import { isHand } from '../../../phrase/limb';
import type { Level } from '../../../phrase/level';
import type { Phrase } from '../../../phrase/phrase';
import { timeline, type TimedNote } from '../../../phrase/timeline';
import { lcm, remainder } from '../../../time/whole';

/** A main note as it is written: grace notes small ahead of it, its voice where it is not the limb's usual one. */
export interface Letter {
  readonly sticking: string;
  readonly voice: string | undefined;
  readonly level: Level;
}

/** A partial of one line. */
export interface ScoreCell {
  /** Columns from the beginning, from 0, and how many it is wide. */
  readonly column: number;
  readonly span: number;
  /** Empty for a rest. */
  readonly letters: readonly Letter[];
  /** Not what the other line has at that time. */
  readonly differs: boolean;
  /** The cycle that starts here, 1-based. */
  readonly cycle: number | undefined;
}

/** Two phrases of one meter on one axis of time, each on its own partials. */
export interface ScorePair {
  readonly columnsPerBeat: number;
  /** Whole beats from the beginning of the picture, with the bar (0 holds the pickup) and the beat in it. */
  readonly beats: readonly { readonly bar: number; readonly beat: number }[];
  readonly before: readonly ScoreCell[];
  readonly after: readonly ScoreCell[];
  /** Beats that the picture leaves out at the end. */
  readonly leftOut: number;
}

/** Beats shown at most. Chosen, not measured: 64 sixteenths are a cycle that people practise, twice over. */
const MOST_BEATS = 32;

/** A cycle of each at least, from the pickup on, with all layers on and as it is written: before any swing. */
export function scorePair(before: Phrase, after: Phrase): ScorePair {
  const lines = [before, after].map(laid);
  const first = Math.min(0, ...lines.map((line) => Math.floor(line.first / line.subdivision)));
  const end = Math.max(...lines.map((line) => Math.ceil(line.end / line.subdivision)));
  const last = Math.min(end, first + MOST_BEATS);
  const columnsPerBeat = lcm(lines[0]!.subdivision, lines[1]!.subdivision);
  const [one, other] = lines.map((line) => lettersBy(line, columnsPerBeat, last));
  const cellsOf = (i: number, mine: Map<number, Letter[]>, theirs: Map<number, Letter[]>) =>
    cells(lines[i]!, mine, theirs, columnsPerBeat, first, last);
  const inBar = before.meter.beatsPerBar;
  return {
    columnsPerBeat,
    beats: Array.from({ length: last - first }, (_, i) => ({
      bar: Math.floor((first + i) / inBar) + 1,
      beat: remainder(first + i, inBar) + 1,
    })),
    before: cellsOf(0, one!, other!),
    after: cellsOf(1, other!, one!),
    leftOut: end - last,
  };
}

interface Line {
  readonly phrase: Phrase;
  readonly subdivision: number;
  /** Partials from bar 1 beat 1: the pickup's first, the cycle's start, and the end of the first cycle. */
  readonly first: number;
  readonly start: number;
  readonly end: number;
}

function laid(phrase: Phrase): Line {
  const layer = phrase.layers.length;
  const { subdivision, displace: start } = gridAt(phrase, layer);
  const pickup = timeline(phrase, layer, 0, 0).notes.filter(({ cycle }) => cycle === 0);
  const first = Math.min(0, ...pickup.map(({ partial }) => partial));
  return { phrase, subdivision, first, start, end: Math.max(1, start + phrase.cycle) };
}

/** What is struck, by the column of its onset. */
function lettersBy(line: Line, columnsPerBeat: number, last: number): Map<number, Letter[]> {
  const { phrase, subdivision, start } = line;
  const span = columnsPerBeat / subdivision;
  const cycles = Math.ceil((last * subdivision - start) / phrase.cycle);
  const together = new Map<number, TimedNote[]>();
  for (const note of timeline(phrase, phrase.layers.length, 0, Math.max(1, cycles)).notes) {
    const column = note.partial * span;
    together.set(column, [...(together.get(column) ?? []), note]);
  }
  return new Map([...together].map(([column, notes]) => [column, letters(notes)]));
}

const USUAL_VOICES = { R: 'snare', L: 'snare', K: 'bass drum', F: 'hi-hat pedal' } as const;

function letters(notes: readonly TimedNote[]): Letter[] {
  const mains = notes.filter(({ graceStep }) => graceStep === 0);
  const graces = notes.filter(({ graceStep }) => graceStep > 0);
  const decorated =
    mains.find(({ limb }) => isHand(limb) && limb !== graces[0]?.limb) ??
    mains.find(({ limb }) => isHand(limb));
  const small = graces.map(({ limb }) => limb.toLowerCase()).join('');
  const found = mains.map((note): Letter => ({
    sticking: (note === decorated ? small : '') + note.limb,
    voice: note.voice === USUAL_VOICES[note.limb] ? undefined : note.voice,
    level: note.level,
  }));
  if (small === '' || decorated) return found;
  return [{ sticking: small, voice: undefined, level: graces[0]!.level }, ...found];
}

function cells(
  { phrase, subdivision, start }: Line,
  mine: ReadonlyMap<number, Letter[]>,
  theirs: ReadonlyMap<number, Letter[]>,
  columnsPerBeat: number,
  first: number,
  last: number,
): ScoreCell[] {
  const span = columnsPerBeat / subdivision;
  return Array.from({ length: (last - first) * subdivision }, (_, i) => {
    const partial = first * subdivision + i;
    const column = partial * span;
    const here = mine.get(column) ?? [];
    const cyclesIn = (partial - start) / phrase.cycle;
    return {
      column: column - first * columnsPerBeat,
      span,
      letters: here,
      differs: JSON.stringify(here) !== JSON.stringify(theirs.get(column) ?? []),
      cycle: partial >= 0 && cyclesIn >= 0 && Number.isInteger(cyclesIn) ? cyclesIn + 1 : undefined,
    };
  });
}

/** A line in words, beat by beat, for those who do not see it. */
export function lineWords(
  line: readonly ScoreCell[],
  { beats, columnsPerBeat }: Pick<ScorePair, 'beats' | 'columnsPerBeat'>,
): string {
  return beats
    .map(({ bar, beat }, i) => {
      const inBeat = line.filter(({ column }) => Math.floor(column / columnsPerBeat) === i);
      const strokes = inBeat.map(({ letters: found, differs }) => {
        const words = found
          .map(({ sticking, voice, level }) =>
            [sticking, level === 'tap' ? '' : level, voice ? `on ${voice}` : '']
              .filter((word) => word !== '')
              .join(' '),
          )
          .join(' with ');
        return found.length === 0 ? 'rest' : words + (differs ? ' (changed)' : '');
      });
      return `Bar ${bar} beat ${beat}: ${strokes.join(', ')}.`;
    })
    .join(' ');
}
