/** What lays out the lane, and plays, writes down and judges a take: fetched ahead of the first start. */
export const loadTakeTools = () => import('./take-tools');
export type TakeTools = Awaited<ReturnType<typeof loadTakeTools>>;

export const NOT_FETCHED =
  'What judges a take could not be fetched: the connection is gone, or a newer version of this page has taken its place. Start again, or reload the page.';
