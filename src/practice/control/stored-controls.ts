import * as v from 'valibot';
import { COMMANDS } from '../../control/command';
import { SWITCH_MESSAGES, type CommandControl } from '../../control/control';

const sevenBit = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(127));

const CommandControlShape = v.object({
  command: v.picklist(COMMANDS),
  control: v.variant('kind', [
    v.object({ kind: v.literal('pad'), note: sevenBit }),
    v.object({
      kind: v.literal('switch'),
      sends: v.picklist(SWITCH_MESSAGES),
      channel: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(16)),
      number: sevenBit,
    }),
    v.object({
      kind: v.literal('key'),
      key: v.pipe(v.string(), v.minLength(1), v.maxLength(30)),
    }),
  ]),
});

/** More than there are pads and keys in reach. Chosen, not measured. */
export const MOST_CONTROLS = 100;
/** By how much a command changes the tempo, beats a minute. */
export const STEP_BPM = { least: 1, most: 20, first: 4 } as const;

/** What is stored of the controls: one that cannot be read is left out, and the others hold. */
export const ControlsShape = v.object({
  controls: v.pipe(
    v.array(v.unknown()),
    v.transform((all) =>
      all
        .filter((one): one is CommandControl => v.is(CommandControlShape, one))
        .slice(0, MOST_CONTROLS),
    ),
  ),
  stepBpm: v.fallback(
    v.pipe(v.number(), v.integer(), v.minValue(STEP_BPM.least), v.maxValue(STEP_BPM.most)),
    STEP_BPM.first,
  ),
});
export type ControlChoices = v.InferOutput<typeof ControlsShape>;
