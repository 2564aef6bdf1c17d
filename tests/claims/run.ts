import { PLAYER, type Player } from '../capture/played-rounds';
import { captureClaims, freeCaptureClaims } from './capture-claims';
import { wrongShare, type Claim } from './claim';
import { stickingClaims } from './sticking-claims';
import { wrongClickClaims } from './wrong-click-claims';

/** Nothing was tuned on it. */
const SEED = 31_907;
const PHRASES = 400;

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
 * `npm run -s claims -- [share] [seed]`, where a share of 0.1 plays a tenth of the phrases.
 */
export function main([share = '1', seed = String(SEED)]: readonly string[]): void {
  const count = Math.ceil(PHRASES * Number(share));
  for (const [name, player] of PLAYERS) {
    tell(`capture of ${count} random phrases, seed ${seed}; the player ${name}`);
    table([
      ...captureClaims(count, Number(seed), player),
      ...freeCaptureClaims(count, Number(seed), player),
    ]);
    const wrong = Math.ceil(count / 4);
    tell(`the same player, ${wrong} of the phrases, the click said wrongly`);
    table(wrongClickClaims(wrong, Number(seed), player));
  }
  tell('capture of the rudiments on one drum, 150 ms apart');
  table(stickingClaims());
}

function table(claims: readonly Claim[]): void {
  for (const one of claims)
    tell(
      `  ${one.claim.padEnd(40)} said ${String(one.said).padStart(5)}, wrong ${String(one.wrong).padStart(4)}, ${(100 * wrongShare(one)).toFixed(1).padStart(5)} %`,
    );
  tell();
}
