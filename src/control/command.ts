/** What the app can be told to do by somebody whose hands are full. */
export const COMMANDS = [
  'start or stop',
  'start',
  'stop',
  'again',
  'next layer',
  'previous layer',
  'faster',
  'slower',
  'mark this spot',
  'wait for me',
  'bring me back',
  'view from the throne',
] as const;
export type Command = (typeof COMMANDS)[number];
