/** A phrase or kit of the player's own, as the text of its file. */
export interface OwnText {
  readonly id: string;
  readonly v: number;
  readonly title: string;
  readonly text: string;
  /** ISO 8601. */
  readonly savedAt: string;
}
