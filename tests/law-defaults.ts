import fc from 'fast-check';
import { drawsAnew, runCount } from './run-count';

/** What the check draws from. Chosen, not measured. */
const CHECK_SEED = 20_261_130;

// Laws that name no count of their own. The check draws the same cases each time, so that it judges the change and
// not the draw; `npm run unit` and `npm run many` draw a new seed each time, and a failure prints it.
const seed = import.meta.env?.['SEED'] ?? (drawsAnew ? undefined : CHECK_SEED);
fc.configureGlobal({
  numRuns: runCount(100),
  ...(seed === undefined ? {} : { seed: Number(seed) }),
});
