import { soundLines, type SoundLines } from '../phrase/decompose/comes-again';
import {
  handsGuessed,
  NO_LIMB_LEFT,
  remarkAt,
  remarksByBar,
  type FileRemark,
} from '../phrase/decompose/file-remark';
import { possibleTempo } from '../phrase/decompose/possible-tempo';
import type { TargetPattern } from '../phrase/decompose/target-pattern';
import { MAX_CYCLE } from '../phrase/model/phrase-file';
import { swingText } from '../phrase/model/swing';
import { fillInLimbs } from '../phrase/playability/fill-in-limbs';
import { isFootVoice } from '../phrase/playability/places';
import { remainder } from '../time/whole';
import { partialsOf } from './written-grid';
import type { NoteOnPartial, WrittenPartials } from './written-partials';
import { writtenRound, type WrittenRound } from './written-round';
import type { WrittenStretch } from './written-stretch';
import { strokeReader, type ReadingManner } from './written-stroke';

/** What a file's notes are as a pattern, and what of them is not in it or only guessed. */
export interface PatternInFile {
  readonly pattern: TargetPattern;
  readonly remarks: readonly FileRemark[];
}

/**
 * The notes of a stretch as the pattern that comes round. What never comes again is a pattern as it stands; where that has
 * more than `most` partials, as many whole bars of it as a cycle holds.
 */
export function writtenPattern(
  placed: WrittenPartials,
  manner: ReadingManner,
  most: number,
): PatternInFile {
  const { stretch, bpm } = manner;
  const { division, notes } = placed;
  const { subdivision, swing } = division;
  const partialUs = 60e6 / (bpm * subdivision);
  const stroke = strokeReader(division, manner);
  const { round, cutAtTick } = roundOf(placed, stretch, most);
  const { start, partials } = round;
  const from = Math.max(0, start);
  const once = notes
    .filter(({ partial }) => partial >= from && partial < from + partials)
    .map((note) => ({ ...note, partial: remainder(note.partial - start, partials) }))
    .sort((a, b) => a.partial - b.partial);
  const ahead = notes.filter(({ partial }) => partial < 0);
  const first = ahead[0]?.partial ?? 0;
  const shifted = ahead.map((note) => ({ ...note, partial: note.partial - first }));
  const limbsOf = (some: readonly NoteOnPartial[], length: number) =>
    fillInLimbs(
      some.map(({ partial, main: { voice, limb } }) => ({ partial, voice, limb })),
      length,
      partialUs,
    );
  const hands = limbsOf(once, partials);
  const aheadHands = limbsOf(shifted, -first);
  const handless = [
    ...once.filter((_, i) => hands[i] === undefined),
    ...ahead.filter((_, i) => aheadHands[i] === undefined),
  ];
  const byHand = [...once, ...ahead].filter(({ main }) => !isFootVoice(main.voice));
  const said = byHand.filter(({ main }) => main.limb !== undefined).length;
  const { tempoBpm, remarks } = possibleTempo(bpm, stretch.meter, subdivision);
  return {
    pattern: {
      meter: stretch.meterText,
      subdivision,
      cyclePartials: partials,
      tempoBpm,
      ...(swing && { swing: swingText(swing) }),
      ...(start !== 0 && { displace: start }),
      notes: once.flatMap((note, i) => {
        const limb = hands[i];
        return limb ? [{ partial: note.partial, graces: [], ...stroke(note, limb) }] : [];
      }),
      pickup: ahead.flatMap((note, i) => {
        const limb = aheadHands[i];
        return limb ? [{ partialsBefore: -note.partial, ...stroke(note, limb) }] : [];
      }),
    },
    remarks: [
      ...remarks,
      ...handsGuessed(byHand.length === 0 ? 1 : said / byHand.length),
      ...remarksByBar(
        handless.map(({ main }) => stretch.barOf(main.tick)),
        NO_LIMB_LEFT,
      ),
      ...(cutAtTick === undefined ? [] : [remarkAt(stretch.barOf(cutAtTick), TOO_LONG)]),
    ],
  };
}

const TOO_LONG = `from here on nothing is read; the notes do not come round, and a cycle has at most ${MAX_CYCLE} partials`;

/** What comes round, and where the rest is cut off, if it is. */
function roundOf(
  { division, notes }: WrittenPartials,
  stretch: WrittenStretch,
  most: number,
): { readonly round: WrittenRound; readonly cutAtTick?: number } {
  const { fromTick, toTick, ticksPerBeat, meter } = stretch;
  const { subdivision } = division;
  const length = Math.round(((toTick - fromTick) / ticksPerBeat) * subdivision);
  const round = writtenRound(linesOf(notes), length, cycleIn(division, stretch));
  if (round.partials <= most) return { round };
  const barPartials = meter.beatsPerBar * subdivision;
  const partials = Math.floor(MAX_CYCLE / barPartials) * barPartials;
  const cutAtTick = fromTick + (partials / subdivision) * ticksPerBeat;
  return { round: { start: 0, partials }, cutAtTick };
}

/** What sounds from bar 1 on. */
const linesOf = (notes: readonly NoteOnPartial[]): SoundLines =>
  soundLines(
    notes
      .filter(({ partial }) => partial >= 0)
      .map(({ partial, main, graces }) => [
        partial,
        [main, ...graces]
          .map(({ voice, velocity, limb }) => `${voice} ${velocity} ${limb ?? ''}`)
          .join(', '),
      ]),
  );

/** The cycle that the file's markers tell: where it first starts, and its length. */
function cycleIn(
  division: WrittenPartials['division'],
  { cycles, fromTick, ticksPerBeat }: WrittenStretch,
): WrittenRound | undefined {
  const [first, second] = cycles;
  if (!first || !second || second.cycle <= first.cycle) return undefined;
  const partialOf = partialsOf(division, 1 / ticksPerBeat);
  const at = partialOf((first.tick - fromTick) / ticksPerBeat);
  const next = partialOf((second.tick - fromTick) / ticksPerBeat);
  if (at === undefined || next === undefined) return undefined;
  const partials = (next - at) / (second.cycle - first.cycle);
  const isCycle = Number.isInteger(partials) && partials >= 1 && partials <= MAX_CYCLE;
  return isCycle ? { start: at - (first.cycle - 1) * partials, partials } : undefined;
}
