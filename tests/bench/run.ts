import { cpus, loadavg } from 'node:os';
import { simulatedPlayerScript } from '../browser/page/simulated-player';
import { laneRows, verdictRow } from './app-bench';
import { withApp } from './page/bench-page';
import type { BenchRow } from './bench-row';
import { benchTable } from './bench-table';
import { captureRows } from './capture-bench';
import { decomposeRow } from './decompose-bench';
import { followerRow } from './follower-bench';
import { heavyParseRow, heavyScreensRow } from './heavy-phrase-bench';
import { liveStatsRow } from './live-stats-bench';
import { liveTakeRow } from './live-take-bench';
import { LIVE_PLAYINGS } from './live-playings';
import { microphoneRow } from './microphone-bench';
import { mergeRow } from './plain-merge';
import { EVEN, PLAYINGS, SLOPPY } from './played-columns';
import { oldLaptopRows } from './old-laptop-bench';
import { placeRow } from './place-bench';
import { sheetRows } from './sheet-bench';
import { solverRow } from './solver-bench';
import { startRow } from './start-bench';
import { takesRow } from './takes-bench';
import { takeWorkRows } from './take-work-bench';
import { variationRows } from './variations-bench';
import { wholeTakeRow } from './whole-take-bench';
import { editRow, expandRow } from './workshop-bench';

const NOTES = 10_000;
/** Ten minutes. */
const NOTES_IN_A_TAKE = 4000;
const WHOLE_TAKE = 100_000;
/** As much as a general solver can do in a second: its work grows with the square of this or worse. */
const SOLVED = 1000;
const FIVE_MINUTES_OF_BARS = 150;
const A_MINUTE = 60;
const ROOMS = 1000;
const PHRASES = 500;

const machine = `Node ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, load average ${loadavg()[0]!.toFixed(1)} before the first benchmark: other work on the machine makes every figure worse.`;
const tell = (line: string) => process.stderr.write(`${line}\n`);

/** `npm run -s bench -- NAME`: one part by itself; the takes are minutes of work that nothing else waits for. */
const MANY_TAKES = { count: 1000, minutes: 10 };
const ALONE: Readonly<Record<string, () => Promise<readonly BenchRow[]>>> = {
  takes: async () => [await takesRow(MANY_TAKES.count, MANY_TAKES.minutes)],
  screens: () => withApp(oldLaptopRows, simulatedPlayerScript()),
  sheet: sheetRows,
};
const [, , part] = process.argv;
if (part !== undefined) {
  const rows = Object.hasOwn(ALONE, part) ? ALONE[part] : undefined;
  if (rows === undefined) tell(`"${part}" is not one of ${Object.keys(ALONE).join(', ')}.`);
  else console.log(benchTable(await rows()));
  console.log(machine);
  process.exit(rows === undefined ? 2 : 0);
}

tell('The live follower ...');
const live = [
  ...PLAYINGS.map((playing) => followerRow(playing, NOTES)),
  ...LIVE_PLAYINGS.map((playing) => liveTakeRow(playing, NOTES)),
  placeRow(),
  liveStatsRow(NOTES_IN_A_TAKE),
];
tell('Whole takes ...');
const whole = [
  mergeRow(EVEN, WHOLE_TAKE),
  ...PLAYINGS.map((playing) => wholeTakeRow(playing, WHOLE_TAKE)),
  ...[EVEN, SLOPPY].map((playing) => solverRow(playing, SOLVED)),
  ...takeWorkRows(FIVE_MINUTES_OF_BARS),
];

tell('Phrases expanded, taken apart, varied ...');
const workshop = [
  heavyParseRow(),
  expandRow(),
  editRow(),
  decomposeRow(),
  ...(await variationRows()),
];

tell('Phrases captured ...');
workshop.push(...captureRows(PHRASES));

tell('The offset by microphone, two to six minutes ...');
const calibration = [microphoneRow(ROOMS)];

tell('The app in Chromium, about two minutes ...');
const app = await withApp(async (page) => [
  await verdictRow(page),
  ...(await laneRows(page, A_MINUTE)),
]);

app.push(await withApp(heavyScreensRow));
app.push(...(await withApp(oldLaptopRows, simulatedPlayerScript())));

tell('A sheet ...');
app.push(...(await sheetRows()));

tell('The first load ...');
app.push(await startRow());

console.log(benchTable([...live, ...whole, ...workshop, ...calibration, ...app]));
console.log(machine);
