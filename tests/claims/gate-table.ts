import { THRESHOLDS, WRONG_PASSES } from '../../src/practice/choices';
import { GATE_THRESHOLD } from '../../src/score/gate-options';
import { NOTES_A_MINUTE, passCount, type PassCount } from './gate-claims';
import { quaySteps } from './quay-steps';

/** So many that chance alone does not make an aim fail: the nearest is half a point off, four standard errors. */
const PLAYERS = 10_000;
/** The choices differ by far more. */
const PLAYERS_A_CHOICE = 2000;

/** Players of a true share, in points of 100 above the threshold, and what is aimed at for them. */
const ROWS: readonly { readonly points: number; readonly aim?: PassAim }[] = [
  { points: -10 },
  { points: -5, aim: { words: 'passed <= 5 %', isMet: ({ passed }, of) => passed <= 0.05 * of } },
  { points: 0 },
  { points: 5, aim: { words: 'passed >= 90 %', isMet: ({ passed }, of) => passed >= 0.9 * of } },
  {
    points: 10,
    aim: { words: 'within 200 notes >= 98 %', isMet: ({ soon }, of) => soon >= 0.98 * of },
  },
];

interface PassAim {
  readonly words: string;
  readonly isMet: (counted: PassCount, players: number) => boolean;
}

/** How many players of each true share pass, and how many who fall short with each choice that there is. */
export function gateTable(share: number, seed: number, tell: (line?: string) => void): void {
  passTable(Math.ceil(PLAYERS * share), seed, tell);
  surenessTable(Math.ceil(PLAYERS_A_CHOICE * share), seed, tell);
}

/** On a layer without a pickup and one with it. */
function passTable(players: number, seed: number, tell: (line?: string) => void): void {
  const phrase = quaySteps();
  tell(`the gate at ${GATE_THRESHOLD}: ${players} players for ten minutes, seed ${seed}`);
  for (const [what, layer] of [
    ['no pickup', 2],
    ['a pickup', 4],
  ] as const)
    for (const faultsInARow of [1, 2])
      for (const { points, aim } of ROWS) {
        const player = { share: GATE_THRESHOLD + points / 100, faultsInARow };
        const counted = passCount(phrase, layer, player, players, seed);
        const of = (count: number) => `${((100 * count) / players).toFixed(1).padStart(5)} %`;
        const { medianNotes = Infinity } = counted;
        const minutes = (medianNotes / NOTES_A_MINUTE).toFixed(1);
        tell(
          [
            `  ${what.padEnd(10)} faults ${faultsInARow} in a row, ${String(points).padStart(3)} points:`,
            `passed ${of(counted.passed)}, within 200 notes ${of(counted.soon)}${counted.passed > 0 ? `, half of those after ${minutes} min` : ''}`,
            aim
              ? `aim ${aim.words}: ${aim.isMet(counted, players) ? 'holds' : 'DOES NOT HOLD'}`
              : 'no aim',
          ].join('  '),
        );
      }
  tell();
}

/** How many players 5 points short pass with each choice that there is. */
function surenessTable(players: number, seed: number, tell: (line?: string) => void): void {
  tell(`5 points short, faults in runs of two: ${players} players for ten minutes, seed ${seed}`);
  for (const threshold of THRESHOLDS)
    for (const wrongPass of WRONG_PASSES) {
      const player = { share: threshold - 0.05, faultsInARow: 2 };
      const options = { threshold, wrongPass };
      const { passed } = passCount(quaySteps(), 2, player, players, seed, options);
      tell(
        `  at ${threshold}, chance ${wrongPass}: ${((100 * passed) / players).toFixed(1)} % passed`,
      );
    }
  tell();
}
