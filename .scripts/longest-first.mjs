import { BaseSequencer } from 'vitest/node';

/** The files that take longest, measured: begun last, they would leave one core alone at the end. */
const LONGEST = [
  'gate-claims.test.ts',
  'measure-offset.test.ts',
  'recovered-shares.test.ts',
  'decompose.test.ts',
  'clock-map-sessions.test.ts',
  'place-moves.test.ts',
  'long-session.test.ts',
  'recovered-free.test.ts',
  'in-step.test.ts',
  'capture/capture.test.ts',
  'screens/vary.test.ts',
  'screens/compose.test.ts',
  'screens/accessibility.test.ts',
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
