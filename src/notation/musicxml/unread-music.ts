/** Something that stands in the file and is not in the phrase. */
export interface UnreadMusic {
  /** 1-based, counted from the first whole bar; 0 for a pickup; undefined for the whole file. */
  readonly bar: number | undefined;
  readonly sentence: string;
}
