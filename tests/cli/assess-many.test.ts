import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { afterAll, describe, expect, it } from 'vitest';
import { judgeTakes, type JudgingJob, type TakeResult } from '../../src/cli/many/judge-takes';
import { progressLine } from '../../src/cli/many/progress-line';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { timedNotes } from '../../src/match/timed-notes';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { simulate } from '../../src/take/simulate';
import type { Take } from '../../src/take/take';
import { writeTake } from '../../src/take/take-json';
import { takeMidi } from '../../src/take/take-midi';
import { steadyTempo } from '../../src/time/tempo';
import { phraseOf } from '../phrase/phrase-of';
import { answerOf } from './run-command';

const folder = mkdtempSync(join(tmpdir(), 'assess-many-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const phrase = phraseOf({
  title: '=Tide',
  tempoBpm: 90,
  grouping: 'R L R K L',
  layers: [{ name: 'Sticking' }, { name: 'Accents', changes: [{ accentEvery: 4 }] }],
});
const phraseText = writePhrase(phrase);

function takeOf(seed: number, biasMs: number): Take {
  const plan = {
    ...{ phrase, passages: [{ fromBar: 1, layer: 2 }], tempo: steadyTempo(90), windows: {} },
  };
  const faults = { biasMs, spreadMs: 12, missed: 0.05, extra: 0.05, velocitySpread: 5 };
  return {
    startedAt: '2026-05-04T18:20:00.000Z',
    phraseText,
    passages: plan.passages,
    tempos: plan.tempo.changes,
    countInBars: 1,
    endUs: 10_000_000,
    kit: GENERAL_MIDI,
    deviceOffsetMs: 0,
    toleranceMs: undefined,
    reachMs: undefined,
    messages: simulate(timedNotes(plan, 10_000_000), faults, seed).messages,
  };
}

const file = (name: string, content: string | Uint8Array) => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};
mkdirSync(join(folder, 'inside'));
mkdirSync(join(folder, 'empty'));
const phrasePath = file('phrase.json', phraseText);
file('b.mid', takeMidi(takeOf(2, 20)));
file('a.json', writeTake(takeOf(1, 0)));
file('c.MID', takeMidi(takeOf(3, -20)));
file('notes.txt', 'no take');
file('inside/d.mid', takeMidi(takeOf(4, 0)));
const names = ['a.json', 'b.mid', 'c.MID'].map((name) => join(folder, name));
const given = ['--phrase', phrasePath] as const;

interface Many {
  readonly takes: readonly { readonly take: string; readonly notes: number }[];
  readonly unread: readonly { readonly take: string; readonly why: string }[];
  readonly all: { readonly takes: number; readonly notes: number; readonly asWritten: number };
}
async function many(...words: string[]) {
  const { status, stdout, stderr } = await answerOf('assess', ...words, '--json');
  expect(stderr).toBe('');
  return { status, report: JSON.parse(stdout) as Many };
}

describe('assess of many takes', () => {
  it('has a row for each take of a folder in the order of their names, and one for all', async () => {
    const { status, report } = await many(folder, ...given);
    expect(status).toBe(0);
    expect(report.takes.map(({ take }) => take)).toEqual(names);
    expect(report.unread).toEqual([]);
    expect(report.all.takes).toBe(3);
    expect(report.all.notes).toBe(report.takes.reduce((sum, { notes }) => sum + notes, 0));
  });

  it('lawRowEqualsTake: says of a take what assess says of it alone', async () => {
    const { report } = await many(folder, ...given);
    for (const { take, ...row } of report.takes) {
      const alone = await answerOf(
        'assess',
        take,
        ...(take.endsWith('.json') ? [] : given),
        '--json',
      );
      const { notes, ...one } = JSON.parse(alone.stdout) as {
        notes: readonly { verdict: string; levelVerdict: string | null }[];
        gate: { passed: boolean };
        findings: readonly string[];
        extras: readonly { why: string }[];
        dynamics: { contrastDb: number };
        [name: string]: unknown;
      };
      const count = (verdict: string) => notes.filter((note) => note.verdict === verdict).length;
      expect(row).toMatchObject({
        phrase: one['phrase'],
        layer: one['layer'],
        layerName: one['layerName'],
        tempoBpm: one['tempoBpm'],
        notes: notes.length,
        inTime: count('in time'),
        early: count('early'),
        late: count('late'),
        missed: count('missed'),
        wrongVoice: count('wrong voice'),
        extras: one.extras.filter(({ why }) => why === 'extra').length,
        passed: one.gate.passed,
        contrastDb: one.dynamics.contrastDb,
      });
      expect(one.findings[0]!.startsWith((row as unknown as { finding: string }).finding)).toBe(
        true,
      );
    }
  });

  it('prints a table whose rows stand in columns', async () => {
    const { status, stdout } = await answerOf('assess', ...names, ...given);
    expect(status).toBe(0);
    const lines = stdout.split('\n');
    expect(lines[0]).toBe('=Tide · 3 takes');
    const at = lines[2]!.indexOf('passed');
    expect(lines.slice(3, 7).map((line) => line.slice(0, at + 6).trimEnd().length)).toEqual(
      Array.from({ length: 4 }, () => at + 6),
    );
    expect(lines[6]).toMatch(/^all .*of 3$/);
  });

  it('prints comma-separated values that no spreadsheet works out', async () => {
    const { stdout } = await answerOf('assess', folder, ...given, '--csv');
    const rows = stdout.split('\r\n');
    expect(rows[0]).toMatch(/^take,phrase,layer,/);
    expect(rows).toHaveLength(1 + 3 + 1 + 1);
    expect(rows[1]).toContain(",'=Tide,2,Accents,90,");
    expect(rows[4]).toMatch(/^all,,,,,\d+,/);
    const one = await answerOf('assess', names[1]!, ...given, '--csv');
    expect(one.stdout.split('\r\n')).toHaveLength(1 + 1 + 1 + 1);
  });

  it('names and counts what it cannot read, with exit code 1, and judges the rest', async () => {
    const bad = file('bad.mid', 'MThd');
    try {
      const words = [...names, bad, join(folder, 'none.mid'), ...given];
      const { status, report } = await many(...words);
      expect(status).toBe(1);
      expect(report.takes).toHaveLength(3);
      expect(report.unread.map(({ take }) => take)).toEqual([bad, join(folder, 'none.mid')]);
      expect(report.unread[1]!.why).toBe(`${join(folder, 'none.mid')}: there is no such file.`);
      const { stdout } = await answerOf('assess', ...words);
      expect(stdout).toContain('\n2 of 5 files not read:\n');
      const csv = await answerOf('assess', ...words, '--csv');
      expect(csv.stdout.split('\r\n')[4]).toMatch(/^.*bad\.mid,{18}.*At byte 0/);
    } finally {
      rmSync(bad);
    }
  });

  it.each([
    [
      /^command line: .*b\.mid: expected takes, and --phrase for MIDI files\./,
      [names[1]!, names[2]!],
    ],
    [
      /^command line: --csv and --json: expected one of them\./,
      [folder, ...given, '--csv', '--json'],
    ],
    [/^command line: -: expected files and folders/, ['-', names[1]!, ...given]],
    [/^.*empty: found no takes in this folder/, [join(folder, 'empty'), ...given]],
    [
      /^.*notes\.txt: At byte 0: .* None of 2 takes could be judged\.$/,
      [join(folder, 'notes.txt'), join(folder, 'notes.txt'), ...given],
    ],
    [
      /^command line: --layer 3: expected a whole number from 1 to 2\./,
      [folder, ...given, '--layer', '3'],
    ],
  ])('refuses in one line: %s', async (line, words) => {
    const { status, stdout, stderr } = await answerOf('assess', ...words);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr.trimEnd()).toMatch(line);
    expect(stderr.trimEnd()).not.toContain('\n');
  });

  it('says the same with other threads as without', async () => {
    const settings = {
      ...{ phraseText, kitText: undefined, layer: undefined, countInBars: undefined },
      ...{ tempoBpm: undefined, windows: {} },
    };
    const paths = Array.from({ length: 60 }, (_, i) => names[i % 3]!);
    const told: number[] = [];
    const tell = (done: number) => told.push(done);
    const alone = await judgeTakes(paths, settings, () => undefined, { threads: 0, fromMs: 0 });
    const helped = await judgeTakes(paths, settings, tell, { threads: 1, fromMs: 0 });
    expect(helped).toEqual(alone);
    expect(told).toEqual(paths.map((_, i) => i + 1));
  });

  it('has threads that judge', async () => {
    const settings = {
      ...{ phraseText, kitText: undefined, layer: undefined, countInBars: undefined },
      ...{ tempoBpm: undefined, windows: {} },
    };
    const program = new URL('../../src/cli/many/judge-worker.ts', import.meta.url).href;
    const job: JudgingJob = { paths: names, settings, next: new SharedArrayBuffer(4) };
    const worker = new Worker('./.scripts/run-thread.mjs', { workerData: { ...job, program } });
    const results: TakeResult[] = [];
    worker.on('message', (result: TakeResult) => results.push(result));
    await once(worker, 'exit');
    const alone = await judgeTakes(names, settings, () => undefined, { threads: 0, fromMs: 0 });
    expect(results).toEqual(alone.map((answer, index) => ({ index, answer })));
  });

  it('says how far it is on a terminal, and nothing elsewhere', () => {
    const written: string[] = [];
    const stream = (isTTY: boolean) =>
      ({ isTTY, write: (text: string) => written.push(text) }) as unknown as NodeJS.WriteStream;
    progressLine('takes', stream(false))(1, 2);
    expect(written).toEqual([]);
    const tell = progressLine('takes', stream(true));
    tell(1, 2);
    tell(2, 2);
    expect(written).toEqual(['\r\u001b[K1 of 2 takes judged', '\r\u001b[K']);
  });
});
