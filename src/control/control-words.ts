import { nameOfPad, type Kit } from '../kit/kit';
import { capital, countInWords, numberWord } from '../words/words';
import type { Control } from './control';
import { keyName } from './key-name';
import { isOfKit, type ControlRules } from './control-rules';

/** @example controlName({ kind: 'switch', sends: 'controller', channel: 1, number: 64 }, GENERAL_MIDI) // => 'foot switch: controller 64, channel 1' */
export function controlName(control: Control, kit: Pick<Kit, 'pads'>): string {
  switch (control.kind) {
    case 'pad':
      return nameOfPad(kit, control.note);
    case 'switch':
      return `foot switch: ${control.sends} ${control.number}, channel ${control.channel}`;
    case 'key':
      return keyName(control.key);
  }
}

/** How a control gives its command with a phrase and a kit, or why it does not. */
export function controlUse(
  control: Control,
  kit: Pick<Kit, 'pads' | 'opening'>,
  { strikes, isFoot, group }: Pick<ControlRules, 'strikes' | 'isFoot' | 'group'>,
): string {
  if (control.kind === 'switch')
    return isOfKit(control, kit) ? 'the kit sends the same: press another switch' : 'press it';
  if (control.kind === 'key') return 'press it';
  const { note } = control;
  if (group[note]! < 0) return 'not on the note map of this kit';
  if (strikes[note] === 0) return 'too busy in this phrase at this tempo';
  return isFoot[note] === 1
    ? `${numberWord(strikes[note]!)} presses, quick and even, hands still`
    : `${countInWords(strikes[note]!, 'strike')}, quick and even`;
}

/** The same as a sentence of what to do. @example controlSentence('three strikes, quick and even') // => 'Three strikes, quick and even.' */
export const controlSentence = (use: string): string => `${capital(use)}.`;
