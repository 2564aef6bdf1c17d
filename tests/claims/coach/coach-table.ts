import { aimOf, hardToTell, shareOf, tally, type Aim, type Tally } from './coach-claims';
import { seenAtBest } from './at-best';
import { CLEAN, FAULTS, type Fault } from './faults';
import { EXTRAS_CLAIMS } from './extras-claims';
import { humanDrifts } from './human-drift';
import { OTHER_CLAIMS, type OtherClaim } from './other-claims';
import type { Scatter } from './player';
import { NOISES } from './scatter';

type Tell = (line?: string) => void;

/** Of every fault, at every scatter. */
const TAKES = 800;
const SD_MS = [8, 12];

/** What the coach says of players with one fault, fault by fault, and of people. */
export function coachTable(share: number, firstSeed: number, tell: Tell): void {
  const takes = Math.ceil(TAKES * share);
  let seed = firstSeed;
  const nextSeed = () => seed++;
  tell(
    `the coach: ${takes} takes a row, seeds from ${firstSeed} on; shares in % with 95 % intervals`,
  );
  const outcomes = [
    ...[...FAULTS, ...CLEAN].flatMap((fault) => faultRows(fault, takes, nextSeed, tell)),
    ...[...OTHER_CLAIMS, ...EXTRAS_CLAIMS].flatMap((claim) =>
      claimRows(claim, takes, nextSeed, tell),
    ),
  ];
  tell();
  tell(`${outcomes.filter(Boolean).length} of ${outcomes.length} rows with an aim hold`);
  tell();
  humanTable(tell);
}

/** Whether each of its rows holds that has an aim. */
function faultRows(fault: Fault, takes: number, nextSeed: () => number, tell: Tell): boolean[] {
  tell();
  tell(fault.name);
  for (const line of hardToTell(fault)) tell(`  hard to tell: ${line}`);
  return scattersOf(fault).flatMap((scatter) => {
    const counted = tally(fault, scatter, takes, nextSeed);
    tell(`  ${rowOf(fault, scatter, counted)}`);
    for (const line of atBestLines(fault, scatter)) tell(`       ${line}`);
    const aim = aimOf(fault, scatter);
    if (aim === undefined) return [];
    const isHeld = holds(aim, counted);
    if (!isHeld) tell(`       least right: ${worstOf(counted)}`);
    return [isHeld];
  });
}

/** Where a row can hardly be better: what is seen of its takes by whoever knows what the coach has to find out. */
function atBestLines(fault: Fault, scatter: Scatter): string[] {
  const best = seenAtBest(fault, scatter);
  if (best === undefined || best.ofAll >= 0.99) return [];
  const [ofAll, ofKind] = [best.ofAll, best.ofKind].map((share) => (100 * share).toFixed(1));
  return [
    `at best ${ofAll} are seen knowing how strokes go together, ${ofKind} looking at this kind of cause alone`,
  ];
}

function claimRows(
  { name, isSaid, most }: OtherClaim,
  takes: number,
  nextSeed: () => number,
  tell: Tell,
): boolean[] {
  tell();
  tell(name);
  return ALL_SCATTERS.flatMap((scatter) => {
    let times = 0;
    for (let take = 0; take < takes; take++) if (isSaid(take, scatter, nextSeed())) times++;
    const share = most(scatter);
    const aim = share === undefined ? undefined : { others: share };
    const counted = { takes, namedFirst: 0, otherwise: times };
    tell(`  ${scatterName(scatter)}  said ${inPercent(times, takes)}  ${verdictOn(aim, counted)}`);
    return aim === undefined ? [] : [holds(aim, counted)];
  });
}

const ALL_SCATTERS: readonly Scatter[] = SD_MS.flatMap((sdMs) =>
  NOISES.map((noise) => ({ noise, sdMs })),
);

const scattersOf = ({ isScatter }: Fault): readonly Scatter[] =>
  isScatter === true ? ALL_SCATTERS.filter(({ sdMs }) => sdMs === SD_MS[0]) : ALL_SCATTERS;

const scatterName = ({ noise, sdMs }: Scatter) =>
  `${String(sdMs).padStart(2)} ms ${noise.padEnd(17)}`;

function rowOf(fault: Fault, scatter: Scatter, counted: Tally): string {
  const { takes, named, namedFirst, otherwise, asFact, others } = counted;
  const isClean = fault.variants.every(({ truths }) => truths.length === 0);
  const aim = aimOf(fault, scatter);
  const most = [...others].sort((a, b) => b[1] - a[1]).slice(0, 3);
  return [
    scatterName(scatter),
    ...(isClean
      ? [`any claim ${inPercent(otherwise, takes)}`]
      : [
          `named ${inPercent(named, takes)}`,
          `first ${inPercent(namedFirst, takes)}`,
          `others ${inPercent(otherwise, takes)}`,
        ]),
    ...(fault.mayBeNeutral ? [`as a fact that may be meant ${inPercent(asFact, takes)}`] : []),
    verdictOn(aim, counted),
    most.map(([code, times]) => `${code} ${times}`).join(', '),
  ]
    .join('  ')
    .trimEnd();
}

/** Where most is lacking. */
const worstOf = ({ byVariant }: Tally): string =>
  byVariant
    .filter(({ takes, right }) => right < takes)
    .sort((a, b) => a.right / a.takes - b.right / b.takes)
    .slice(0, 3)
    .map(({ name, right, takes }) => `${name} ${right} of ${takes}`)
    .join('; ');

function inPercent(times: number, takes: number): string {
  const { share, interval } = shareOf(times, takes);
  const [at, lower, upper] = [share, interval.lower, interval.upper].map((one) => 100 * one);
  return `${at!.toFixed(1).padStart(5)} (${lower!.toFixed(1)} to ${upper!.toFixed(1)})`;
}

type Counted = Pick<Tally, 'takes' | 'namedFirst' | 'otherwise'>;

/** Whether the shares themselves reach the aim. */
export const holds = ({ first = 0, others }: Aim, { takes, namedFirst, otherwise }: Counted) =>
  namedFirst >= first * takes && otherwise <= others * takes;

function verdictOn(aim: Aim | undefined, counted: Counted): string {
  if (aim === undefined) return 'no aim';
  const first = aim.first === undefined ? '' : `first >= ${100 * aim.first}, `;
  return `aim ${first}others <= ${100 * aim.others}: ${holds(aim, counted) ? 'holds' : 'DOES NOT HOLD'}`;
}

function humanTable(tell: Tell): void {
  tell(
    'drift in the beats among the human takes: claimed only where the slope of the bar medians has p < .05',
  );
  for (const { name, bars, slopeMsABar, p, isClaimed, codes } of humanDrifts())
    tell(
      `  ${name} ${String(bars).padStart(3)} bars, ${slopeMsABar.toFixed(2).padStart(6)} ms a bar, p ${p.toFixed(3)}, drift ${isClaimed ? 'claimed' : 'not claimed'}: ${isClaimed && p >= 0.05 ? 'DOES NOT HOLD' : 'holds'}; all: ${codes.join(', ')}`,
    );
}
