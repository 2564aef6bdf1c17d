import { wilson } from '../../src/score/statistics/wilson';
import {
  isClaimed,
  isClaimedOfHits,
  libraryCases,
  shiftsOf,
  slipRun,
  SLOPPY,
  STEADY,
  type PlaceCase,
} from './place-claims';

/** Players a shift of a layer, and a layer that is kept. */
const RUNS = 20;

interface Row {
  readonly what: string;
  readonly claimed: (one: PlaceCase, seed: number) => boolean;
  readonly aim: number;
}

/** Takes in which no place is lost. */
const KEPT: readonly Row[] = [
  {
    what: 'in place, 12 ms, 5 % missed, 5 % wrong',
    claimed: (one, seed) => isClaimed(one, STEADY, seed),
    aim: 0.01,
  },
  {
    what: 'in place, 40 ms, 20 % missed, 10 % wrong',
    claimed: (one, seed) => isClaimed(one, SLOPPY, seed),
    aim: 0.01,
  },
  {
    what: 'tempo 3 % too slow',
    claimed: (one, seed) => isClaimed(one, { ...STEADY, slower: 0.03 }, seed),
    aim: 0.01,
  },
  {
    what: 'tempo 3 % too quick',
    claimed: (one, seed) => isClaimed(one, { ...STEADY, slower: -0.03 }, seed),
    aim: 0.01,
  },
  {
    what: 'random hits',
    claimed: (one, seed) => isClaimedOfHits(one, seed, false),
    aim: 0.02,
  },
  {
    what: 'a fill of two bars, then in place',
    claimed: (one, seed) => isClaimedOfHits(one, seed, true),
    aim: 0.02,
  },
];

/** How often a lost place is told rightly, wrongly and where none is lost, over all layers of the library. */
export function placeTable(share: number, seed: number, tell: (line?: string) => void): void {
  const cases = libraryCases();
  const runs = Math.max(1, Math.round(RUNS * share));
  tell(`lost place: ${cases.length} layers, ${runs} players each, seed ${seed}`);
  const count = { right: 0, wrong: 0, silent: 0 };
  /** Of layers all of whose places are told from each other by three partials a cycle. */
  const clear = { right: 0, wrong: 0, silent: 0 };
  const exempt: string[] = [];
  for (const one of cases) {
    const shifts = shiftsOf(one);
    if (shifts.exempt.length > 0)
      exempt.push(`  ${one.phrase.title}, layer ${one.layer}: ${shifts.exempt.join(', ')}`);
    for (const shift of shifts.told)
      for (let run = 0; run < runs; run++) {
        const told = slipRun(one, shift, seed + 977 * shift + 31 * run + one.layer);
        count[told]++;
        if (shifts.exempt.length === 0) clear[told]++;
      }
  }
  for (const [which, { right, wrong, silent }] of [
    ['any layer', count],
    ['no exempt shift', clear],
  ] as const) {
    const all = right + wrong + silent;
    tell(line(`${which}: told rightly in two cycles or 40 strokes`, right, all, '≥ 98 %'));
    tell(line(`${which}: told wrongly`, wrong, all, '≤ 1 %'));
  }
  for (const { what, claimed, aim } of KEPT) {
    let said = 0;
    cases.forEach((one, c) => {
      for (let run = 0; run < runs; run++) if (claimed(one, seed + 1009 * c + run)) said++;
    });
    tell(line(`claimed of: ${what}`, said, runs * cases.length, `≤ ${100 * aim} %`));
  }
  tell('exempt, since fewer than three partials a cycle tell them, in partials:');
  exempt.forEach((one) => tell(one));
}

function line(what: string, count: number, of: number, aim: string): string {
  const { lower: low, upper: high } = wilson(count, of)!;
  const percent = (share: number) => (100 * share).toFixed(1);
  return `  ${what.padEnd(60)} ${String(count).padStart(5)} of ${String(of).padEnd(6)} ${percent(count / of).padStart(5)} % (${percent(low)} to ${percent(high)}), aim ${aim}`;
}
