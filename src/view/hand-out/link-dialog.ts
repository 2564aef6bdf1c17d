import { fetchedOnce } from '../shell/fetched-once';

/** What makes a link to phrases, and shows it. */
export const linkDialog = fetchedOnce(() => import('./LinkDialog.svelte'));
