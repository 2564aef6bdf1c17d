/** A page that is not in front is not painted; then this is long enough, ms. Chosen, not measured. */
const NOT_PAINTED_MS = 200;

/** Settles once what is on the page now has been painted, or will not be. */
export const firstPaint = (): Promise<void> =>
  new Promise((painted) => {
    requestAnimationFrame(() => setTimeout(painted));
    setTimeout(painted, NOT_PAINTED_MS);
  });
