export const KIT_FAULTS = [
  'double triggers',
  'crosstalk',
  'hot spot',
  'chatter',
  'hi-hat controller',
  'flood',
  'wireless MIDI',
  'one velocity',
  'unmapped note',
] as const;
export type KitFaultName = (typeof KIT_FAULTS)[number];

/**
 * Something the hardware does that is not the player's doing, counted, in words, with the setting of
 * the sound module that usually cures it (common practice, no source).
 */
export interface KitFault {
  readonly fault: KitFaultName;
  /** MIDI note number of the pad; undefined where it is the whole kit's. */
  readonly pad: number | undefined;
  readonly count: number;
  readonly sentence: string;
  readonly advice: string;
}

/** How a pad is called in sentences. */
export type PadName = (note: number) => string;
