import { fetchedOnce } from '../shell/fetched-once';

/** What shows how a figure is worked out. */
export const methodNote = fetchedOnce(() => import('./show-method'));
