import { CHAPTER_IDS } from '../src/view/shell/route';

/** Every address of the app, without its hash: each screen, and what stands where there is nothing. */
export const ROUTES: readonly string[] = [
  'practise',
  'phrases',
  'phrases/quay-steps',
  'phrases/none',
  'sheet/quay-steps',
  'open',
  'capture',
  'kit',
  'kit/first-start',
  'kit/offset',
  'kit/what-it-sends',
  'log',
  'log/what-is-kept',
  'log/none',
  'help',
  'help/methods',
  ...CHAPTER_IDS.map((chapter) => `help/${chapter}`),
  'compose',
  'compose/quay-steps',
  'vary',
  'vary/quay-steps',
  'nowhere',
];
