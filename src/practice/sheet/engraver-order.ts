/** What the page asks of the thread that keeps the engraver's program. */
export type EngraverOrder =
  | { readonly program: Blob }
  /** Jobs come and answers go through it. */
  | { readonly startAt: MessagePort }
  | { readonly end: true };

/** Said in place of an answer where the engraver does not start. */
export const NOT_STARTED = 'not started';
