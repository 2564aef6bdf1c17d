import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { libraryPhrases } from '../phrase/library-phrases';
import { falseTriggers, PLAYERS_AT_LARGE, recognised } from './control-claims';

const TAKES = 1000;
const TIMES = 40;
const TEMPI = [50, 80, 120, 180];

/** How often playing gives a command, with every pad of the kit a control, and how often a command is not heard. */
export function controlTable(share: number, seed: number, tell: (line?: string) => void): void {
  const takes = Math.ceil(TAKES * share);
  tell(`commands from the kit, every pad a control: ${takes} takes of each phrase, seed ${seed}`);
  tell('takes that give a command though nobody meant one, at tempi from 40 to 240');
  const wrong = PLAYERS_AT_LARGE.map(() => 0);
  let right = 0;
  let given = 0;
  for (const { name, text } of libraryPhrases()) {
    const parsed = parsePhrase(text);
    if (!parsed.ok) throw new Error(name);
    const counts = PLAYERS_AT_LARGE.map(([, player]) =>
      falseTriggers(parsed.value, player, takes, seed),
    );
    counts.forEach((count, i) => (wrong[i]! += count));
    let heard = 0;
    let of = 0;
    for (const pad of EDGE_AND_RIM.pads)
      for (const bpm of TEMPI) {
        const count = recognised(parsed.value, bpm, pad, Math.ceil(TIMES * share), seed + bpm);
        heard += count.right;
        of += count.of;
      }
    right += heard;
    given += of;
    const of1000 = PLAYERS_AT_LARGE.map(([player], i) => `${player} ${counts[i]!}`).join(', ');
    tell(`  ${name.padEnd(22)} ${of1000}; commands heard ${heard} of ${of}`);
  }
  const all = PLAYERS_AT_LARGE.map(([player], i) => `${player} ${wrong[i]!}`).join(', ');
  tell(`  all phrases: ${all}; commands heard ${((100 * right) / given).toFixed(2)} %`);
  tell();
}
