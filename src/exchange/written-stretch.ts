import { meterChanges, remarkOnAll, type FileRemark } from '../phrase/decompose/file-remark';
import type { MidiFile, MidiText } from '../take/midi-file';
import { markedLayers, type LayerMarks } from '../take/midi-marks';
import { parseMeter, type Meter } from '../time/meter';
import { good, type Result } from '../time/result';
import { barAt, meterAt, meterStretches, type MeterStretch } from './bar-lines';
import { notAPhrase, type PhraseInFileError } from './phrase-in-file-error';
import { divisionInText, type Division } from './written-grid';
import { cycleOfMark, PICKUP } from './written-marks';
import type { WrittenNote } from './written-notes';

/** The part of a file that a phrase is made of. */
export interface WrittenStretch {
  readonly meter: Meter;
  readonly meterText: string;
  readonly ticksPerBeat: number;
  /** Bar 1 beat 1 of the phrase. */
  readonly fromTick: number;
  /** Where its bars end. */
  readonly toTick: number;
  /** What sounds from here on ahead of `fromTick` is the pickup. */
  readonly pickupFrom: number;
  /** As a text of this program says it. */
  readonly division: Division | undefined;
  /** Where cycles begin, by markers of this program. */
  readonly cycles: readonly { readonly cycle: number; readonly tick: number }[];
  readonly remarks: readonly FileRemark[];
  readonly barOf: (tick: number) => number;
}

/**
 * Which bars of a file are read, and what it says of them: where its markers name layers, the bars of one of them (the
 * last unless a `layer` is given), else all from the first bar with a note on, as far as the meter stays.
 *
 * @param notes in time order, at least one
 */
export function writtenStretch(
  { division, meters, texts, endTick }: MidiFile,
  notes: readonly WrittenNote[],
  layer: number | undefined,
): Result<WrittenStretch, PhraseInFileError> {
  if (division.kind === 'frames')
    return notAPhrase(
      'FRAMES',
      'It counts in frames of film, which have no bars; export it in ticks.',
    );
  const { ticksPerQuarter } = division;
  const lines = meterStretches(meters, ticksPerQuarter);
  const firstTick = notes[0]!.tick;
  const start = meterAt(lines, firstTick);
  const meter = parseMeter(start.text);
  if (!meter)
    return notAPhrase(
      'METER',
      `Its meter is ${start.text}; a phrase has 1 to 32 over 4, 8 or 16. Write it in one of those.`,
    );
  const frame: Frame = {
    meter,
    meterText: start.text,
    ticksPerBeat: meter.quartersPerBeat.valueOf() * ticksPerQuarter,
    barOf: (tick: number) => barAt(lines, Math.max(0, tick)),
  };
  const marks = lines.length === 1 ? markedLayers({ division, texts }, meter) : undefined;
  const lastTick = notes.findLast(({ tick }) => tick < start.toTick)!.tick;
  if (marks) {
    const found = markedStretch(marks, layer, {
      ...{ texts, barTicks: start.barTicks, endTick: Math.max(endTick, lastTick + 1) },
    });
    return found.ok ? good({ ...frame, ...found.value }) : found;
  }
  if (layer !== undefined)
    return notAPhrase('LAYER', 'It says of no bars which layer they are; leave the layer out.');
  const after = lines.find(({ fromTick }) => fromTick > firstTick);
  return good({ ...frame, ...wholeStretch(start, after, { firstTick, lastTick, endTick }) });
}

type Frame = Pick<WrittenStretch, 'meter' | 'meterText' | 'ticksPerBeat' | 'barOf'>;
type Bars = Omit<WrittenStretch, keyof Frame>;

/** All bars of a meter from the first with a note on; a file that ends on a later bar line rests until then. */
function wholeStretch(
  { fromTick: origin, toTick, fromBar, barTicks }: MeterStretch,
  after: MeterStretch | undefined,
  {
    firstTick,
    lastTick,
    endTick,
  }: { readonly firstTick: number; readonly lastTick: number; readonly endTick: number },
): Bars {
  const barsTo = (tick: number) => (tick - origin) / barTicks;
  const before = Math.floor(barsTo(firstTick));
  const played = Math.floor(barsTo(lastTick)) + 1;
  const bars = Number.isInteger(barsTo(endTick)) ? Math.max(played, barsTo(endTick)) : played;
  const fromTick = origin + before * barTicks;
  return {
    fromTick,
    toTick: Math.min(toTick, origin + bars * barTicks),
    pickupFrom: fromTick,
    division: undefined,
    cycles: [],
    remarks: [
      ...(fromBar + before > 1 ? [emptyBars(fromBar + before)] : []),
      ...(after ? [meterChanges(after.fromBar, after.text)] : []),
    ],
  };
}

/** The bars of one of the layers that markers name, and its pickup ahead of them. */
function markedStretch(
  { passages, countInBars }: LayerMarks,
  layer: number | undefined,
  {
    texts,
    barTicks,
    endTick,
  }: {
    readonly texts: readonly MidiText[];
    readonly barTicks: number;
    readonly endTick: number;
  },
): Result<Bars, PhraseInFileError> {
  const names = passages.map((one) => one.layer).join(', ');
  const index = passages.findLastIndex((one) => layer === undefined || one.layer === layer);
  const passage = passages[index];
  if (!passage)
    return notAPhrase('LAYER', `It has no layer ${layer}, only ${names}; choose one of those.`);
  const tickOf = (fromBar: number) => (countInBars + fromBar - 1) * barTicks;
  const fromTick = tickOf(passage.fromBar);
  const next = passages[index + 1];
  const endsAt = next ? tickOf(next.fromBar) : endTick;
  const before = tickOf(passages[index - 1]?.fromBar ?? -Infinity);
  const isPickup = ({ text }: MidiText) => text === PICKUP;
  const inside = texts.filter(({ tick }) => tick >= fromTick && tick < endsAt);
  const ahead = texts.filter(({ tick }) => tick >= before && tick < fromTick);
  const toBarLine = fromTick + Math.ceil((endsAt - fromTick) / barTicks) * barTicks;
  return good({
    fromTick,
    toTick: (next && inside.find(isPickup)?.tick) ?? toBarLine,
    pickupFrom: ahead.findLast(isPickup)?.tick ?? fromTick,
    division: inside
      .filter(({ tick, kind }) => kind === 'text' && tick === fromTick)
      .map(({ text }) => divisionInText(text))
      .find((one) => one !== undefined),
    cycles: inside.flatMap(({ tick, text }) => {
      const cycle = cycleOfMark(text);
      return cycle === undefined ? [] : [{ cycle, tick }];
    }),
    remarks:
      passages.length === 1
        ? []
        : [
            remarkOnAll(
              `The file has layers ${names}; layer ${passage.layer} is read, since a phrase is made of one.`,
            ),
          ],
  });
}

const emptyBars = (firstBar: number): FileRemark =>
  remarkOnAll(
    firstBar === 2
      ? 'Bar 1 is empty; the phrase begins at bar 2.'
      : `Bars 1 to ${firstBar - 1} are empty; the phrase begins at bar ${firstBar}.`,
  );
