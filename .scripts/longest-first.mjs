import { BaseSequencer } from 'vitest/node';

/** The files that take longest, measured: begun last, they would leave one core alone at the end. */
const LONGEST = [
  'same-answers.test.ts',
  'redirected.test.ts',
  'clock-map-sessions.test.ts',
  'measure-offset.test.ts',
  'write-mei.test.ts',
  'place-moves.test.ts',
  'read-by-verovio.test.ts',
  'capture/capture.test.ts',
  'long-session.test.ts',
  'recovered-shares.test.ts',
  'read-musicxml.test.ts',
  'cli/sheet.test.ts',
  'decompose.test.ts',
  'gate-claims.test.ts',
  'mutated-inputs.test.ts',
  'change-claims.test.ts',
  'return-claims.test.ts',
  'recovered-free.test.ts',
  'screens/vary.test.ts',
  'screens/compose.test.ts',
  'screens/accessibility.test.ts',
  'practise/practise.test.ts',
  'failing-writes.svelte.test.ts',
  'library-sheets.test.ts',
  'screens/open.test.ts',
];

/** The longest files first, where a fresh clone knows of no durations yet. */
export class LongestFirst extends BaseSequencer {
  /**
   * @override
   * @param {import('vitest/node').TestSpecification[]} files
   */
  async sort(files) {
    const sorted = await super.sort(files);
    const isLong = (/** @type {{ moduleId: string }} */ { moduleId }) =>
      LONGEST.some((name) => moduleId.endsWith(`/${name}`));
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))];
  }
}
