import type { Command } from '../../control/command';

/** The keys as long as nobody has changed them: none of them drums on the computer keyboard but the space bar. */
export const FIRST_KEYS: ReadonlyMap<string, Command> = new Map([
  [' ', 'start or stop'],
  ['Escape', 'stop'],
  ['c', 'again'],
  ['.', 'next layer'],
  [',', 'previous layer'],
  ['+', 'faster'],
  ['-', 'slower'],
  ['x', 'mark this spot'],
  ['1', 'wait for me'],
  ['2', 'bring me back'],
  ['v', 'view from the throne'],
]);
