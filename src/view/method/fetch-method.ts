import { fetchedOnce } from '../shell/fetched-once';

/** What says how figures are worked out: one part, as a page and over one. */
export const fetchMethod = fetchedOnce(() => import('./method-parts'));
