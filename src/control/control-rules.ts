import { boundariesOf } from '../kit/boundaries-of';
import type { Kit } from '../kit/kit';
import { padGroups } from '../kit/pad-groups';
import { COMMANDS } from './command';
import {
  SWITCH_MESSAGES,
  type CommandControl,
  type SwitchControl,
  type SwitchMessage,
} from './control';
import { isFootVoice } from '../phrase/playability/places';
import { longestRow, type PadBeats } from './pad-beats';
import { strikesFor } from './strike-gaps';

/** Which messages of a kit give which command while a phrase is practised, as columns for the live path. */
export interface ControlRules {
  /** By MIDI note: index into COMMANDS, -1 for none. */
  readonly commandOfPad: Int8Array;
  /** By MIDI note: strikes in a row; 0 where none give it with this phrase. */
  readonly strikes: Uint8Array;
  /** By MIDI note: the softest strike that counts, 1 to 127. */
  readonly firmFrom: Uint8Array;
  /** By MIDI note: number of the pad's group; -1 for a note without a pad. */
  readonly group: Int16Array;
  /** By MIDI note: 1 where a foot strikes it. */
  readonly isFoot: Uint8Array;
  /** By `switchIndex`: index into COMMANDS, -1 for none. */
  readonly commandOfSwitch: Int8Array;
}

/** A message of a foot switch as a number. @param channel 1 to 16 */
const switchIndex = (sends: SwitchMessage, channel: number, number: number): number =>
  (SWITCH_MESSAGES.indexOf(sends) * 16 + channel - 1) * 128 + number;

/**
 * The rules for a phrase, whose `beats` are those of the kit's pads, at `quickestBpm` or slower; without one nothing is
 * in the way. Zones of one
 * pad that have no command of their own give the one of the pad. A foot switch whose note is on the kit's map gives none.
 *
 * @example controlRules([{ command: 'faster', control: { kind: 'pad', note: 56 } }], GENERAL_MIDI, undefined, 90).strikes[56] // => 3
 */
export function controlRules(
  controls: readonly CommandControl[],
  kit: Kit,
  beats: PadBeats | undefined,
  quickestBpm: number,
): ControlRules {
  const { ofNote: group } = padGroups(kit);
  const commandOfPad = new Int8Array(128).fill(-1);
  const strikes = new Uint8Array(128);
  const firmFrom = new Uint8Array(128).fill(1);
  const isFoot = new Uint8Array(128);
  const commandOfSwitch = new Int8Array(SWITCH_MESSAGES.length * 16 * 128).fill(-1);
  for (const { note, voice } of kit.pads) {
    isFoot[note] = isFootVoice(voice) ? 1 : 0;
    // A foot keeps time where the phrase leaves it free.
    const row = Math.max(longestRow(beats?.[group[note]!] ?? [], quickestBpm), isFoot[note]);
    strikes[note] = strikesFor(row) ?? 0;
    firmFrom[note] = firmVelocity(kit, note);
  }
  for (const { command, control } of controls) {
    const code = COMMANDS.indexOf(command);
    if (control.kind === 'pad' && group[control.note]! >= 0) commandOfPad[control.note] = code;
    if (control.kind === 'switch' && !isOfKit(control, kit))
      commandOfSwitch[switchIndex(control.sends, control.channel, control.number)] = code;
  }
  // Alike from all zones of a pad, unless they were given several commands.
  const own = commandOfPad.slice();
  for (const { note, group: name } of kit.pads) {
    const codes = new Set(
      kit.pads.filter((pad) => pad.group === name).map((pad) => own[pad.note]!),
    );
    codes.delete(-1);
    if (own[note] === -1 && codes.size === 1) commandOfPad[note] = [...codes][0]!;
  }
  return { commandOfPad, strikes, firmFrom, group, isFoot, commandOfSwitch };
}

/** Whether the kit itself sends such messages: a pad on its map, or its hi-hat. */
export const isOfKit = (
  { sends, number }: Pick<SwitchControl, 'sends' | 'number'>,
  { pads, opening }: Pick<Kit, 'pads' | 'opening'>,
): boolean =>
  sends === 'note'
    ? pads.some(({ note }) => note === number)
    : sends === 'controller' && number === opening.controller;

/** Above a ghost, and above what the kit is known to shake out of the pad. */
function firmVelocity(kit: Kit, note: number): number {
  const { group } = kit.pads.find((pad) => pad.note === note)!;
  const shaken = (kit.crosstalk ?? [])
    .filter(({ answers }) => answers === group)
    .map(({ upToPercent }) => Math.floor((127 * upToPercent) / 100));
  return Math.min(127, Math.max(boundariesOf(kit, note).ghostMax, ...shaken) + 1);
}
