import { FIRST_PLAYERS } from '../../../src/practice/inputs/players';
import { SETTINGS_PREFIX } from '../../../src/store/settings-store';

/** Text to run in a page before its own scripts: whoever has not said who plays has chosen the simulated player. */
export const simulatedPlayerScript = (): string =>
  `try {
     const name = ${JSON.stringify(`${SETTINGS_PREFIX}players`)};
     if (localStorage.getItem(name) === null)
       localStorage.setItem(name, ${JSON.stringify(
         JSON.stringify({ ...FIRST_PLAYERS, player: 'simulated player' }),
       )});
   } catch {
     // A page that may keep nothing is asked.
   }`;
