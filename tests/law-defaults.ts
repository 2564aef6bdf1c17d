import fc from 'fast-check';
import { runCount } from './run-count';

// Laws that name no count of their own. Each run draws a new seed, and a failure prints it; only where
// two runs are to be compared is one given.
const seed = import.meta.env?.['SEED'];
fc.configureGlobal({
  numRuns: runCount(100),
  ...(seed === undefined ? {} : { seed: Number(seed) }),
});
