import type { SessionStatus } from '../../../../practice/session.svelte';

export const STATUS_WORDS: Readonly<Record<SessionStatus, string>> = {
  idle: 'Stopped',
  'counting in': 'Counting in',
  playing: 'Playing',
};
