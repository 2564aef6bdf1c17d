import type { GateReport } from '../score/trials';
import type { OwnLack } from '../score/own-notes';
import { countInWords, countOf, list } from '../words/words';

/**
 * How far a trial is, in one sentence: what it passed with, or what is still in the way.
 *
 * @param counts whether it passes anything: false of what no person played
 * @param isLost whether the place is lost, of which the rest would speak otherwise
 * @example gateWords({ passed: false, notes: 0, right: 0, extras: 0, ownLack: undefined, cleanCyclesToPass: 3 }) // => 'To pass: about three clean cycles.'
 */
export function gateWords(report: GateReport, counts = true, isLost = false): string {
  const { passed, notes, right, extras, ownLack, cleanCyclesToPass: cleanCycles } = report;
  if (passed) {
    const beside = extras > 0 ? `, ${countOf(extras, 'extra stroke')}` : '';
    const played = `${right} of ${countOf(notes, 'note')} as written${beside}`;
    return counts ? `Passed: ${played}.` : `Enough to pass: ${played}. Only what you play counts.`;
  }
  if (isLost) return 'To pass: find the place again first.';
  const lacks = [...cycleWords(cleanCycles, notes > 0), ...ownWords(ownLack)];
  return `To pass: ${list(lacks)}.`;
}

function cycleWords(clean: number | undefined, hasPlayed: boolean): string[] {
  if (clean === undefined) return ['more clean cycles than can be told'];
  const cycles = countInWords(clean, hasPlayed ? 'more clean cycle' : 'clean cycle');
  return clean > 0 ? [`about ${cycles}`] : [];
}

/** What of the layer's own has gone wrong. */
function ownWords(lack: OwnLack | undefined): string[] {
  if (!lack) return [];
  const { pickup, notes, positions } = lack;
  return [
    ...(pickup && pickup.wrong > 0
      ? [`the pickup at the next start (${pickup.right} of ${pickup.of} right)`]
      : []),
    ...(notes && notes.wrong > 0
      ? [`what this layer adds (${notes.right} of the last ${notes.of} right)`]
      : []),
    ...(positions.length > 0
      ? [
          `${positions.length === 1 ? 'position' : 'positions'} ${list(positions.map(String))} (wrong every time)`,
        ]
      : []),
  ];
}
