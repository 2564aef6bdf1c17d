import { MAX_REACH_US } from '../match/pair-weight';
import { assessFile } from './assess-input';
import { assessJson } from './assess-json';
import { assessReport } from './assess-report';
import { InputError, runCommand } from './input-error';
import { commandLine } from './options';
import { readKit, readMidi, readPhrase } from './read-input';

const USAGE =
  'assess TAKE.mid --phrase PHRASE.json [--layer N] [--tempo BPM] [--count-in BARS] [--tolerance MS] [--reach MS] [--kit KIT.json] [--json]';

await runCommand(() => {
  const words = commandLine(
    process.argv.slice(2),
    {
      phrase: { type: 'string' },
      layer: { type: 'string' },
      tempo: { type: 'string' },
      'count-in': { type: 'string' },
      tolerance: { type: 'string' },
      reach: { type: 'string' },
      kit: { type: 'string' },
      json: { type: 'boolean' },
    },
    USAGE,
  );
  const phrasePath = words.text('phrase');
  const [takePath, ...others] = words.files;
  if (takePath === undefined || others.length > 0 || phrasePath === undefined)
    throw new InputError(`command line: expected one take and --phrase. Usage: ${USAGE}`);
  const tempoBpm = words.number('tempo', 10, 1000);
  const countInBars = words.whole('count-in', 0, 64) ?? 0;
  const toleranceMs = words.number('tolerance', 0, MAX_REACH_US / 1000);
  const reachMs = words.number('reach', 1, MAX_REACH_US / 1000);
  const phrase = readPhrase(phrasePath);
  const layer = words.whole('layer', 1, phrase.layers.length) ?? phrase.layers.length;
  const kitPath = words.text('kit');
  const assessed = assessFile({
    takePath,
    file: readMidi(takePath),
    phrase,
    layer,
    countInBars,
    tempoBpm,
    windows: { toleranceMs, reachMs },
    kit: kitPath === undefined ? undefined : readKit(kitPath),
  });
  const output = words.flag('json')
    ? JSON.stringify(assessJson(assessed), null, 1)
    : assessReport(assessed);
  process.stdout.write(`${output}\n`);
});
