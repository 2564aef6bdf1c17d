import { EDGE_AND_RIM, GENERAL_MIDI } from '../../../kit/built-in-kits';

/** Whether a kit comes with the app and cannot be changed or removed. */
export const isBuiltIn = (title: string): boolean =>
  title === EDGE_AND_RIM.title || title === GENERAL_MIDI.title;
