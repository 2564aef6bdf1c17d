import { claimLine } from './claim';
import { HI_HAT_FEET, openingWatchClaims } from './opening-watch-claims';
import { PEDAL_PLAYERS, pedalClaims } from './pedal-claims';

const PEDALS = 20_000;
const TAKES = 2000;

/** What is said of the hi-hat's pedal on the first start, and what is asked about it on the kit's page. */
export function pedalTable(share: number, seed: number, tell: (line?: string) => void): void {
  const pedals = Math.ceil(PEDALS * share);
  for (const [name, player] of PEDAL_PLAYERS) {
    tell(`the hi-hat's pedal by two strokes, ${name}: ${pedals} pedals, seed ${seed}`);
    for (const claim of pedalClaims(player, pedals, seed)) tell(claimLine(claim));
    tell();
  }
  const takes = Math.ceil(TAKES * share);
  tell(`its controller in a take of five minutes: ${takes} takes a foot, seed ${seed}`);
  tell('wrong: it follows the foot, and is asked about; a foot that hardly moves it is asked, too');
  for (const [name, foot] of HI_HAT_FEET) {
    const { asked, follow, stuck, stuckTold } = openingWatchClaims(foot, takes, seed);
    tell(`${name}: ${follow} follow it, ${stuck} are stuck, ${stuckTold} of these are asked about`);
    for (const claim of asked) tell(claimLine(claim));
  }
  tell();
}
