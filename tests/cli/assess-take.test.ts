import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { comparisons, type JudgedTake } from '../../src/coach/comparison/comparisons';
import { clickReturns } from '../../src/coach/click-returns';
import { returnWords } from '../../src/coach/return-words';
import { boundariesOf } from '../../src/kit/boundaries-of';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { writeKit } from '../../src/kit/parse-kit';
import { openTake } from '../../src/live/open-take';
import { timedNotes } from '../../src/match/timed-notes';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { figuresOf } from '../../src/score/figures';
import { simulate } from '../../src/take/simulate';
import type { Take } from '../../src/take/take';
import { writeTake } from '../../src/take/take-json';
import { mixedNumber } from '../../src/time/beats';
import { steadyTempo } from '../../src/time/tempo';
import { answerOf } from './run-command';

const folder = mkdtempSync(join(tmpdir(), 'assess-take-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const phraseText = readFileSync('shared/examples/slack-tide.json', 'utf8');
const parsed = parsePhrase(phraseText);
if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
const phrase = parsed.value;
const passages = [
  { fromBar: 1, layer: 1 },
  { fromBar: 3, layer: 2 },
];
const due = timedNotes({ phrase, passages, tempo: steadyTempo(100), windows: {} }, 12_000_000);
const { messages } = simulate(due, { biasMs: 6, spreadMs: 8, missed: 0.05 }, 5);
/** What the rig adds is 40 ms, and is taken off again. */
const take: Take = {
  startedAt: '2026-05-04T18:20:00.000Z',
  phraseText,
  passages,
  tempos: steadyTempo(100).changes,
  countInBars: 1,
  endUs: 12_000_000,
  kit: GENERAL_MIDI,
  deviceOffsetMs: 40,
  toleranceMs: 20,
  reachMs: undefined,
  messages: messages.map((one) => ({ ...one, timeUs: one.timeUs + 40_000 })),
};

function fileOf(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}
const path = fileOf('take.json', writeTake(take));

async function assess(...words: string[]) {
  const { status, stdout, stderr } = await answerOf('assess', ...words, '--json');
  expect([status, stderr]).toEqual([0, '']);
  return JSON.parse(stdout) as {
    readonly [name: string]: unknown;
    readonly notes: readonly { readonly verdict: string; readonly offsetMs: number | null }[];
    readonly layers: readonly { readonly layer: number }[];
  };
}

describe('assess with a take as the app saves it', () => {
  it('says what came of bars without a click, as the app does', async () => {
    const silentBars = { sounding: 1, silent: 1, growBy: 0, most: 1 };
    const silent = fileOf('silent.json', writeTake({ ...take, silentBars }));
    const opened = openTake({ ...take, silentBars })!;
    const returns = clickReturns(opened.plan, opened.judgement.notes);
    expect(returns.length).toBeGreaterThan(0);
    expect((await assess(silent))['silentBars']).toEqual(
      returns.map(({ fromBar, toBar, beats, errorMs, chanceMs }) => ({
        fromBar,
        toBar,
        beats,
        errorMs: errorMs ?? null,
        chanceMs: chanceMs ?? null,
      })),
    );
    const { stdout } = await answerOf('assess', silent);
    for (const one of returns) expect(stdout).toContain(returnWords(one));
    expect((await assess(path))['silentBars']).toEqual([]);
  });

  it('says of which layer its findings are', async () => {
    const { stdout } = await answerOf('assess', path);
    expect(stdout).toMatch(
      new RegExp(`^  In layer 2, ${phrase.layers[1]!.name}, played last:\n  [A-Z0-9“]`, 'm'),
    );
  });

  it('says what the app says, note by note, with what the take was played to', async () => {
    const report = await assess(path);
    expect(report).toMatchObject({
      phrase: phrase.title,
      layer: 2,
      layerName: phrase.layers[1]!.name,
      tempoBpm: 100,
      toleranceMs: 20,
      kit: GENERAL_MIDI.title,
    });
    const opened = openTake(take)!;
    expect(report.notes.map(({ verdict, offsetMs }) => [verdict, offsetMs])).toEqual(
      opened.judgement.notes.map(({ verdict, offsetUs }) => [
        verdict,
        offsetUs === undefined ? null : offsetUs / 1000,
      ]),
    );
    // The player is late by 6 ms, not by the 46 that came down the wire.
    const { meanMs } = figuresOf(opened.judgement.notes);
    expect(Math.abs(meanMs! - 6)).toBeLessThan(3);
    expect(report.layers.map(({ layer }) => layer)).toEqual([1, 2]);
  });

  it('says what the app says of a take whose target waited and began again', async () => {
    // A bar of 4/4 is 16 sixteenths, a cycle 12. Layer 2 begins at bar 3; a cycle later the player is one late.
    const moves = [
      ...passages,
      { fromBar: 3, layer: 2, latePartials: 13 },
      { fromBar: 6, layer: 2, countInBars: 1 },
    ];
    const moved = { ...take, passages: moves };
    const report = await assess(fileOf('moved.json', writeTake(moved)));
    const { judgement } = openTake(moved)!;
    expect(report.notes).toHaveLength(judgement.notes.length);
    expect(report.notes).toMatchObject(
      judgement.notes.map(({ due: { note }, verdict, offsetUs }) => ({
        bar: note.bar,
        beat: mixedNumber(note.beat),
        cycle: note.cycle,
        position: note.position,
        verdict,
        offsetMs: offsetUs === undefined ? null : offsetUs / 1000,
      })),
    );
    const places = judgement.notes.map(
      ({ due: { note } }) => `${note.bar}:${mixedNumber(note.beat)}`,
    );
    const first = judgement.notes.findIndex(({ due }) => due.passage === 2);
    expect([places[first], judgement.notes[first]!.due.note.position]).toEqual(['3:4 1/4', 1]);
    expect(places.some((place) => place.startsWith('5:'))).toBe(false);
  });

  it('prints a report', async () => {
    const { status, stdout } = await answerOf('assess', path);
    expect(status).toBe(0);
    expect(stdout).toContain(`${phrase.title} · layer 2, ${phrase.layers[1]!.name} · 100 bpm`);
  });

  it('takes tolerance, reach and kit from the command line where they are given', async () => {
    const kitPath = fileOf('kit.json', writeKit(EDGE_AND_RIM));
    const report = await assess(path, '--tolerance', '31', '--reach', '77', '--kit', kitPath);
    expect(report).toMatchObject({ toleranceMs: 31, reachMs: 77, kit: EDGE_AND_RIM.title });
  });

  it.each(['phrase', 'layer', 'tempo', 'count-in'])('refuses --%s', async (option) => {
    const value = option === 'phrase' ? 'shared/examples/slack-tide.json' : '20';
    const words = option === 'layer' ? '1' : value;
    const { status, stdout, stderr } = await answerOf('assess', path, `--${option}`, words);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(new RegExp(`^command line: --${option}: .*leave it out\\.\\n$`));
  });

  it.each([
    ['a place in it', '{"take":1,"startedAt":7}', /^.*cut\.json: startedAt: .*\n$/],
    ['no whole JSON', '{"take":1,', /^.*cut\.json: This text is not JSON .*\n$/],
    [
      'a phrase that cannot be read',
      writeTake({ ...take, phraseText: '{}' }),
      /^.*cut\.json: phrase: .*\n$/,
    ],
  ])('names %s in one line', async (_, text, line) => {
    const { status, stdout, stderr } = await answerOf('assess', fileOf('cut.json', text));
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(line);
  });
});

describe('assess --since', () => {
  const layer = [{ fromBar: 1, layer: 3 }];
  const notes = timedNotes(
    { phrase, passages: layer, tempo: steadyTempo(100), windows: {} },
    60_000_000,
  );
  const played = (leftMs: number, seed: number): Take => {
    const later = notes.map((one) => ({
      ...one,
      timeUs: one.timeUs + (one.note.limb === 'L' ? 1000 * leftMs : 0),
    }));
    const struck = simulate(later, { spreadMs: 6 }, seed).messages;
    return { ...take, passages: layer, endUs: 61e6, deviceOffsetMs: 0, messages: struck };
  };
  const [before, after] = [played(20, 7), played(6, 8)];
  const earlier = fileOf('earlier.json', writeTake(before));
  const now = fileOf('now.json', writeTake(after));
  const judged = (one: Take): JudgedTake => ({
    ...openTake(one)!,
    boundaries: (pad) => boundariesOf(one.kit, pad),
  });

  it('says what has changed of what the earlier take was told, as the app does', async () => {
    const { since } = await assess(now, '--since', earlier);
    expect(since).toEqual(comparisons(judged(before), judged(after)).map(({ text }) => text));
    expect(since).toEqual([
      expect.stringMatching(/^Left hand [5-9] ms (late|behind the rest), was (19|20|21)\.$/),
    ]);
    const { stdout } = await answerOf('assess', now, '--since', earlier);
    expect(stdout).toContain(`\n  ${(since as string[])[0]!}\n`);
  });

  it('says nothing without it, and that there is nothing', async () => {
    expect(await assess(now)).toMatchObject({ since: [] });
    const { stdout } = await answerOf('assess', now, '--since', path);
    expect(stdout).toContain('Nothing that the earlier take was told can be compared.');
  });

  it('compares MIDI files by the same options', async () => {
    const file = 'shared/examples/slack-tide';
    const report = await assess(
      `${file}.mid`,
      '--phrase',
      `${file}.json`,
      '--since',
      `${file}.mid`,
    );
    expect(report['since']).toContainEqual(expect.stringMatching(/, about the same as before\.$/));
  });

  it('refuses the take of somebody else', async () => {
    const simulated = fileOf('sim.json', writeTake({ ...before, player: 'simulated player' }));
    const own = fileOf('own.json', writeTake({ ...after, player: 'kit' }));
    const { status, stdout, stderr } = await answerOf('assess', own, '--since', simulated);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toBe(
      `${simulated}: player: expected kit, as in the take itself, and not simulated player.\n`,
    );
  });
});
