import * as v from 'valibot';
import { GUESSES } from '../take/guess';
import { PLAYERS } from '../take/player';
import {
  CommandsFile,
  ExerciseFile,
  SilentBarsFile,
  SpotsFile,
  TrialsFile,
} from '../take/take-file';
import { hasTakeShape } from '../take/take-shape';
import type { MessageColumns } from './message-columns';
import { LEAST_ORDER } from './packed-capture';
import type { TableName, Tables } from './tables';

// What a record must be to be worked with. Whatever stands on a disk may be damaged, or from another program on the
// same origin: a record that is no such thing is set aside by itself.

const finite = v.pipe(v.number(), v.finite());
const whole = v.pipe(v.number(), v.integer());
const counted = v.pipe(whole, v.minValue(1));
const orUndefined = <Schema extends v.GenericSchema>(schema: Schema) =>
  v.optional(v.union([schema, v.undefined_()]));
const maybe = orUndefined(finite);
const player = orUndefined(v.picklist(PLAYERS));

const OwnTextShape = v.object({
  id: v.string(),
  v: whole,
  title: v.string(),
  text: v.string(),
  savedAt: v.string(),
});

const SummaryShape = v.object({
  id: v.string(),
  startedAt: v.string(),
  phraseTitle: v.string(),
  layer: counted,
  layerName: v.string(),
  layersPlayed: v.optional(v.array(v.string())),
  tempoBpm: finite,
  seconds: finite,
  notes: finite,
  asWritten: maybe,
  offsetMeanMs: maybe,
  spreadMs: maybe,
  contrastDb: maybe,
  passed: v.boolean(),
  player,
  trials: v.optional(
    v.array(
      v.object({
        layer: counted,
        layerName: v.string(),
        target: v.string(),
        bpm: finite,
        fromBar: whole,
        toBar: whole,
        notes: finite,
        asWritten: maybe,
        offsetMeanMs: maybe,
        spreadMs: maybe,
        passed: v.boolean(),
        finding: v.string(),
        code: orUndefined(v.string()),
      }),
    ),
  ),
});

const columns = {
  timeUs: v.instance(Float64Array),
  status: v.instance(Uint8Array),
  data1: v.instance(Uint8Array),
  data2: v.instance(Uint8Array),
};

const areAsLong = ({ timeUs, status, data1, data2 }: MessageColumns): boolean =>
  [status, data1, data2].every(({ length }) => length === timeUs.length);

const PackedTakeShape = v.pipe(
  v.object({
    id: v.string(),
    v: whole,
    startedAt: v.string(),
    player,
    trials: orUndefined(TrialsFile),
    guess: orUndefined(v.picklist(GUESSES)),
    exercise: orUndefined(ExerciseFile),
    phraseText: v.string(),
    kitText: v.string(),
    passages: v.array(
      v.object({
        fromBar: finite,
        layer: finite,
        latePartials: v.exactOptional(finite),
        countInBars: v.exactOptional(finite),
      }),
    ),
    tempos: v.array(v.object({ fromBeat: v.string(), bpm: finite })),
    countInBars: finite,
    endUs: finite,
    deviceOffsetMs: v.optional(finite),
    toleranceMs: maybe,
    reachMs: maybe,
    silentBars: orUndefined(SilentBarsFile),
    commands: orUndefined(CommandsFile),
    spotsUs: orUndefined(SpotsFile),
    ...columns,
  }),
  v.check((packed) => areAsLong(packed) && hasTakeShape(packed, packed.timeUs)),
);

const JournalPartShape = v.object({
  takeId: v.string(),
  part: v.pipe(whole, v.minValue(0)),
  packed: PackedTakeShape,
});

/** From where listening began, which may be long before somebody played. Chosen: a month. */
const MOST_OF_CAPTURE_US = 30 * 24 * 3600 * 1e6;

/** As exact as milliseconds of a `Date`, so that the next one is another number. */
const order = v.pipe(whole, v.minValue(LEAST_ORDER), v.maxValue(-LEAST_ORDER));

const PackedCaptureShape = v.pipe(
  v.object({
    id: v.string(),
    v: whole,
    at: v.string(),
    order: v.optional(v.union([order, v.undefined_()])),
    kitText: v.string(),
    clickBpm: maybe,
    meter: v.string(),
    fileName: v.optional(v.union([v.string(), v.undefined_()])),
    isCutShort: v.boolean(),
    said: v.unknown(),
    ...columns,
  }),
  v.check(
    (packed) =>
      areAsLong(packed) && packed.timeUs.every((timeUs) => Math.abs(timeUs) <= MOST_OF_CAPTURE_US),
  ),
);

const SHAPES: Readonly<Record<TableName, v.GenericSchema>> = {
  summaries: SummaryShape,
  takes: PackedTakeShape,
  phrases: OwnTextShape,
  kits: OwnTextShape,
  journal: JournalPartShape,
  plays: PackedCaptureShape,
};

/** Whether a record is what its table holds. */
export const isSound = <Name extends TableName>(
  table: Name,
  record: unknown,
): record is Tables[Name]['value'] => v.is(SHAPES[table], record);
