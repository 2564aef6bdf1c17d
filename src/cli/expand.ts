import { expand, limbName, mixedNumber, type Note, type Phrase, realignment } from '../index';
import { EXPAND_HELP } from './help';
import { runCommand } from './input-error';
import { commandLine } from './options';
import { readPhrase } from './read-input';
import { table } from './table';
import { countOf } from '../words/words';

const USAGE = 'expand PHRASE.json [--layer N] [--bars N] [--json]';
const MOST_BARS = 10_000;

export const main = (args: readonly string[]): Promise<void> =>
  runCommand(args, { usage: USAGE, help: EXPAND_HELP }, () => {
    const words = commandLine(
      args,
      { layer: { type: 'string' }, bars: { type: 'string' }, json: { type: 'boolean' } },
      USAGE,
    );
    const phrase = readPhrase(words.onlyFile('phrase'));
    const layer =
      words.whole('layer', { from: 1, to: phrase.layers.length }) ?? phrase.layers.length;
    const bars = words.whole('bars', { from: 1, to: MOST_BARS }) ?? realignment(phrase, layer).bars;
    const notes = expand(phrase, layer, { bars });
    process.stdout.write(
      words.flag('json')
        ? `${JSON.stringify(expandJson(phrase, layer, notes), null, 1)}\n`
        : `${expandReport(phrase, layer, notes)}\n`,
    );
  });

function expandJson(phrase: Phrase, layer: number, notes: readonly Note[]) {
  const { cycles, bars, starts } = realignment(phrase, layer);
  return {
    phrase: phrase.title,
    layer,
    layerName: phrase.layers[layer - 1]!.name,
    meter: phrase.meterText,
    realignment: { cycles, bars },
    cycleStarts: starts.map(({ cycle, bar, beat }) => ({ cycle, bar, beat: mixedNumber(beat) })),
    notes: notes.map((note) => ({
      bar: note.bar,
      beat: mixedNumber(note.beat),
      onsetBeats: note.onset.toFraction(true),
      cycle: note.cycle,
      position: note.position,
      voice: note.voice,
      limb: note.limb,
      level: note.level,
      grace: note.graceStep > 0,
      layers: note.layers,
    })),
  };
}

function expandReport(phrase: Phrase, layer: number, notes: readonly Note[]): string {
  const { cycles, bars, starts } = realignment(phrase, layer);
  return [
    `${phrase.title} · layer ${layer}, ${phrase.layers[layer - 1]!.name} · ${phrase.meterText}`,
    `Cycle and bar line meet again after ${countOf(cycles, 'cycle')}, ${countOf(bars, 'bar')}.`,
    '',
    table(
      ['cycle', 'bar', 'beat'],
      starts.map(({ cycle, bar, beat }) => [String(cycle), String(bar), mixedNumber(beat)]),
    ),
    '',
    table(
      ['bar', 'beat', 'cycle', 'position', 'limb', 'voice', 'level', 'layers'],
      notes.map((note) => [
        String(note.bar),
        mixedNumber(note.beat),
        String(note.cycle),
        String(note.position),
        note.graceStep > 0 ? `${limbName(note.limb)}, grace` : limbName(note.limb),
        note.voice,
        note.level,
        note.layers.join(' '),
      ]),
    ),
  ].join('\n');
}
