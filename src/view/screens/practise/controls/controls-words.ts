import type { Command } from '../../../../control/command';
import type { CommandControl } from '../../../../control/control';
import { countOf } from '../../../../words/words';

/** What each command does, beside its name. */
export const COMMAND_HINTS: Readonly<Record<Command, string>> = {
  'start or stop': 'one control for both',
  start: '',
  stop: '',
  again: 'stops and starts again with the count-in',
  'next layer': 'where cycle and bar line next meet',
  'previous layer': 'where cycle and bar line next meet',
  faster: 'at the next cycle',
  slower: 'at the next cycle',
  'mark this spot': 'keeps the place, to loop it after the take',
  'wait for me': 'where the place is lost',
  'bring me back': 'where the place is lost',
  'view from the throne': 'what is read from a distance alone, and back',
};

/** @example controlsWords([{ command: 'stop', control: { kind: 'key', key: 'Escape' } }]) // => '1 key' */
export function controlsWords(all: readonly CommandControl[]): string {
  const count = (kind: CommandControl['control']['kind']) =>
    all.filter(({ control }) => control.kind === kind).length;
  const words = [
    [count('pad'), 'pad'],
    [count('switch'), 'foot switch'],
    [count('key'), 'key'],
  ] as const;
  const some = words.filter(([number]) => number > 0);
  if (some.length === 0) return 'no commands by pad, switch or key';
  return some
    .map(([number, noun]) =>
      noun === 'foot switch' && number > 1 ? `${number} foot switches` : countOf(number, noun),
    )
    .join(' · ');
}
