import { differencesOfRun } from '../live/live-run';
import { fuzz, FUZZED, type FuzzedKind } from './mutated-inputs';

const INPUTS: Readonly<Record<FuzzedKind, number>> = {
  midi: 300_000,
  phrase: 400_000,
  phrases: 200_000,
  link: 200_000,
  kit: 200_000,
  take: 200_000,
  musicxml: 200_000,
  mxl: 100_000,
  'drum part': 20_000,
};
const LIVE_RUNS = 8000;
const MOST_MS_PER_KB = 50;
/** A drum part is taken apart into layers as well, whatever comes of it: 60 ms for eight layers of 1 kB. */
const MOST_TAKING_APART = 200;
const EXPECTED = `expected [share above 0] [whole seed] [seconds above 0] [${Object.keys(FUZZED).join('|')}], as "0.01 7 60 midi"\n`;
const tell = (line: string) => process.stdout.write(`${line}\n`);

/**
 * Reads mutated files of every kind, opens takes that were played, and says what came of it: `npm run fuzz -- [share] [seed] [seconds] [kind]`, where a
 * share of 0.01 reads a hundredth of the usual numbers, each kind takes so many seconds at most, and one kind may be
 * named to read that alone.
 */
export async function main(args: readonly string[]) {
  const [share = '1', seed = '1', seconds = 'Infinity', only] = args;
  const isRun = Number(share) > 0 && Number.isInteger(Number(seed)) && Number(seconds) > 0;
  if (!isRun || (only !== undefined && !Object.hasOwn(FUZZED, only))) {
    process.stderr.write(`${args.join(' ')}: ${EXPECTED}`);
    process.exitCode = 2;
    return;
  }
  for (const kind of Object.keys(FUZZED) as FuzzedKind[]) {
    if (only !== undefined && kind !== only) continue;
    const wanted = Math.ceil(INPUTS[kind] * Number(share));
    const report = await fuzz(kind, {
      inputs: wanted,
      seed: Number(seed),
      seconds: Number(seconds),
    });
    const { inputs, accepted, thrown, slowest } = report;
    tell(
      `${kind}: ${inputs} of ${wanted} read, ${accepted} accepted, ${thrown.length} thrown; slowest ${slowest.msPerKb.toFixed(1)} ms a kB (seed ${slowest.seed})`,
    );
    for (const one of thrown.slice(0, 20)) tell(`  seed ${one.seed}: ${one.error}`);
    if (thrown.length > 0 || slowest.msPerKb > mostMsPerKb(kind)) process.exitCode = 1;
  }
  if (only !== undefined) return;
  compareRuns(Math.ceil(LIVE_RUNS * Number(share)), Number(seed), 1000 * Number(seconds));
}

const mostMsPerKb = (kind: FuzzedKind): number =>
  kind === 'drum part' ? MOST_TAKING_APART : MOST_MS_PER_KB;

function compareRuns(wanted: number, first: number, mostMs: number): void {
  const endMs = performance.now() + mostMs;
  let runs = 0;
  let differ = 0;
  for (; runs < wanted && performance.now() < endMs; runs++) {
    const [one] = differencesOfRun(first + runs);
    if (one === undefined) continue;
    differ++;
    process.exitCode = 1;
    tell(`  seed ${first + runs}: ${one}`);
  }
  tell(`live: ${runs} of ${wanted} takes played and opened again, ${differ} differ`);
}
