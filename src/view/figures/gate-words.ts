import type { Gate } from '../../score/gate';
import { percentText } from './format';
import { countInWords } from './number-words';

/**
 * What the gate asks and how far it is, in one sentence. The bound is the lower end of a 95 % interval.
 */
export function gateWords(gate: Gate, cleanCyclesToPass: number): string {
  const threshold = percentText(gate.threshold);
  if (gate.passed)
    return `Passed: ${percentText(gate.asWritten)} as written, with 95 % certainty at least ${percentText(gate.lowerBound)}; ${threshold} was asked.`;
  const cycles = countInWords(
    cleanCyclesToPass,
    gate.notes > 0 ? 'more clean cycle' : 'clean cycle',
  );
  return `Passes at ${threshold} with 95 % certainty: about ${cycles}.`;
}
