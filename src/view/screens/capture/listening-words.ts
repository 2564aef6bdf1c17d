import type { CapturingParts } from '../../app-context';

/** What the capture is doing, in a few words. */
export function listeningWords({
  status,
  bar,
  strokes,
}: Pick<CapturingParts, 'status' | 'bar' | 'strokes'>): string {
  switch (status) {
    case 'idle':
      return 'Not listening';
    case 'starting':
      return 'Starting the sound';
    case 'counting in':
      return 'Counting in';
    case 'listening':
      if (strokes > 0) return 'Listening: play it several times round';
      return bar > 0 ? 'Play' : 'Play when you like';
  }
}
