import { markedLayers } from '../take/midi-marks';
import type { MidiFile } from '../take/midi-file';
import { parseMeter, type Meter } from '../time/meter';
import { good, type Result } from '../time/result';
import { barAt, meterAt, meterStretches } from './bar-lines';
import { notAPhrase, type PhraseInFileError } from './phrase-in-file-error';
import { remarkAt, remarkOnAll, type FileRemark } from './file-remark';
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
  const { barTicks, fromTick: origin } = start;
  const base = {
    meter,
    meterText: start.text,
    ticksPerBeat: meter.quartersPerBeat.valueOf() * ticksPerQuarter,
    barOf: (tick: number) => barAt(lines, Math.max(0, tick)),
  };
  const marks = lines.length === 1 ? markedLayers({ division, texts }, meter) : undefined;
  if (!marks) {
    if (layer !== undefined)
      return notAPhrase('LAYER', 'It says of no bars which layer they are; leave the layer out.');
    const fromTick = origin + Math.floor((firstTick - origin) / barTicks) * barTicks;
    const isWhole = Number.isInteger((endTick - origin) / barTicks);
    const afterLast = Math.floor((lastTick(notes, start.toTick) - origin) / barTicks) + 1;
    const bars = Math.max(afterLast, isWhole ? (endTick - origin) / barTicks : 0);
    const toTick = Math.min(start.toTick, origin + bars * barTicks);
    const remarks = [
      ...(fromTick > 0 ? [emptyBars(base.barOf(fromTick))] : []),
      ...lines
        .filter(({ fromTick: tick }) => tick > firstTick)
        .slice(0, 1)
        .map(({ fromBar, text }) =>
          remarkAt(fromBar, `the meter changes to ${text}; from here on nothing is read`),
        ),
    ];
    return good({
      ...base,
      ...{ fromTick, toTick, pickupFrom: fromTick, remarks, cycles: [], division: undefined },
    });
  }
  const { passages, countInBars } = marks;
  const index = passages.findLastIndex((one) => layer === undefined || one.layer === layer);
  const passage = passages[index];
  if (!passage)
    return notAPhrase(
      'LAYER',
      `It has no layer ${layer}, only ${passages.map((one) => one.layer).join(', ')}; choose one of those.`,
    );
  const tickOf = (fromBar: number) => (countInBars + fromBar - 1) * barTicks;
  const fromTick = tickOf(passage.fromBar);
  const next = passages[index + 1];
  const endsAt = next ? tickOf(next.fromBar) : Math.max(endTick, lastTick(notes, Infinity) + 1);
  const inside = texts.filter(({ tick }) => tick >= fromTick && tick < endsAt);
  const before = tickOf(passages[index - 1]?.fromBar ?? -Infinity);
  const pickup = texts.findLast(
    ({ tick, text }) => text === PICKUP && tick >= before && tick < fromTick,
  );
  const nextPickup = next && inside.find(({ text }) => text === PICKUP);
  return good({
    ...base,
    fromTick,
    toTick: nextPickup?.tick ?? fromTick + Math.ceil((endsAt - fromTick) / barTicks) * barTicks,
    pickupFrom: pickup?.tick ?? fromTick,
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
              `The file has layers ${passages.map((one) => one.layer).join(', ')}; layer ${passage.layer} is read, since a phrase is made of one.`,
            ),
          ],
  });
}

const lastTick = (notes: readonly WrittenNote[], before: number): number =>
  notes.findLast(({ tick }) => tick < before)?.tick ?? 0;

const emptyBars = (firstBar: number): FileRemark =>
  remarkOnAll(
    firstBar === 2
      ? 'Bar 1 is empty; the phrase begins at bar 2.'
      : `Bars 1 to ${firstBar - 1} are empty; the phrase begins at bar ${firstBar}.`,
  );
