import { PLAYER, type Player } from '../capture/played-rounds';
import { tempoSteps } from '../../src/coach/tempo-steps';
import { captureClaims, freeCaptureClaims } from './capture-claims';
import { claimLine, type Claim } from './claim';
import { changeTable } from './coach/change-table';
import { controlTable } from './control-table';
import { coachTable } from './coach/coach-table';
import { gateTable } from './gate-table';
import { pedalTable } from './pedal-table';
import { placeTable } from './place-table';
import { quaySteps } from './quay-steps';
import { returnClaims } from './return-claims';
import { silentPlanClaims } from './silent-plan-claims';
import { stickingClaims } from './sticking-claims';
import { tempoPlanClaims, tempoPlayers } from './tempo-plan-claims';
import { wrongClickClaims } from './wrong-click-claims';

/** Nothing was tuned on it. */
const SEED = 31_907;
const PHRASES = 400;
const PLAN_PLAYERS = 2000;

/** None of them but the middle one was played while capture was written. Chosen, not measured. */
const PLAYERS: readonly (readonly [name: string, player: Player])[] = [
  [
    'steady: 6 ms, 1 % missed and extra',
    { spreadMs: 6, missed: 0.01, extra: 0.01, velocitySpread: 5 },
  ],
  ['as most are: 12 ms, 3 %', PLAYER],
  ['unsteady: 18 ms, 6 %', { spreadMs: 18, missed: 0.06, extra: 0.06, velocitySpread: 12 }],
];

const tell = (line = '') => process.stdout.write(`${line}\n`);

/**
 * How often what the program says to players is not so, on phrases and players that it was not tuned on:
 * `npm run -s claims -- [coach|place|change|control|gate|pedal] [share] [seed]`, where a share of 0.1 plays a tenth of the
 * phrases or takes, "coach" asks for what the coach says alone, "place" for where in the phrase it says somebody is, "change"
 * for what it says has changed since an exercise, "control" for commands that are heard in what is played, "gate" for
 * passes, and "pedal" for the hi-hat's pedal.
 */
export function main(args: readonly string[]): void {
  const part = PARTS.get(args[0] ?? '');
  const [share = '1', seed = String(SEED)] = part ? args.slice(1) : args;
  if (!(Number(share) > 0 && Number.isInteger(Number(seed)))) {
    const given = args.join(' ');
    process.stderr.write(
      `${given}: expected [${[...PARTS.keys()].join('|')}] [share above 0] [whole seed], as "coach 0.1 7"\n`,
    );
    process.exitCode = 2;
  } else if (part) part(Number(share), Number(seed), tell);
  else captureAndGateTables(share, seed);
}

const PARTS = new Map([
  ['coach', coachTable],
  ['place', placeTable],
  ['change', changeTable],
  ['control', controlTable],
  ['gate', gateTable],
  ['pedal', pedalTable],
]);

function captureAndGateTables(share: string, seed: string): void {
  const count = Math.ceil(PHRASES * Number(share));
  for (const [name, player] of PLAYERS) {
    tell(`capture of ${count} random phrases, seed ${seed}; the player ${name}`);
    claimTable([
      ...captureClaims(count, Number(seed), player),
      ...freeCaptureClaims(count, Number(seed), player),
    ]);
    const wrong = Math.ceil(count / 4);
    tell(`the same player, ${wrong} of the phrases, the click said wrongly`);
    claimTable(wrongClickClaims(wrong, Number(seed), player));
  }
  pedalTable(Number(share), Number(seed), tell);
  tell('capture of the rudiments on one drum, 150 ms apart');
  claimTable(stickingClaims());
  gateTable(Number(share), Number(seed), tell);
  tempoPlanTable(Math.ceil(PLAN_PLAYERS * Number(share)), Number(seed));
  silentPlanTable(Math.ceil((PLAN_PLAYERS / 10) * Number(share)), Number(seed));
  returnTable(Math.ceil(PHRASES * Number(share)), Number(seed));
  changeTable(Number(share), Number(seed), tell);
}

/** How often rushing or dragging without a click is claimed. */
function returnTable(takes: number, seed: number): void {
  tell(`silent bars, ten stretches of two: ${takes} takes, seed ${seed}`);
  for (const [spreadMs, walkMs] of [
    [8, 8],
    [12, 12],
    [8, 14],
  ] as const)
    for (const driftMs of [0, 2, 4, 6]) {
      const { said, wrong } = returnClaims({ spreadMs, walkMs, driftMs }, 10, takes, seed);
      tell(
        `  spread ${spreadMs} ms, beats wander by ${walkMs}, ${driftMs} ms late a beat: told ${said}, wrongly ${wrong}`,
      );
    }
  tell();
}

/** How often a tempo plan goes on or back wrongly, by how many cycles it looks at and how many looks have to fail. */
function tempoPlanTable(players: number, seed: number): void {
  const tempi = tempoSteps({ start: 80, goal: 120, by: 4, growBy: 0 });
  tell(`a tempo plan from 80 to 120: ${players} players for ten minutes, seed ${seed}`);
  for (const cycles of [4, 5, 10])
    for (const backAfter of [1, 2]) {
      tell(`looks at ${cycles} cycles, back after ${backAfter}`);
      const plan = { tempi, cycles, backAfter };
      claimTable(tempoPlanClaims(quaySteps(), 2, plan, tempoPlayers(players, plan), seed));
    }
}

/** What silent bars do to a tempo plan, where players are held to the click in them and where they are not. */
function silentPlanTable(players: number, seed: number): void {
  tell(`the same plan with two bars of click and four without: ${players} steady players`);
  for (const walkMs of [5, 8, 12])
    for (const isHeld of [false, true]) {
      const { back, reached } = silentPlanClaims(walkMs, isHeld, players, seed);
      const how = isHeld ? 'held to it everywhere' : 'held to what is heard';
      tell(
        `  beats without a click scatter by ${walkMs} ms, ${how}: ${reached} reach the goal, ${back} times back`,
      );
    }
  tell();
}

function claimTable(claims: readonly Claim[]): void {
  for (const one of claims) tell(claimLine(one));
  tell();
}
