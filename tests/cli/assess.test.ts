import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { assessWords } from '../../src/cli/assess';
import { assessJson } from '../../src/cli/assess-json';
import { assessReport } from '../../src/cli/assess-report';
import { steadyTempo } from '../../src/time/tempo';
import { timedNotes } from '../../src/match/timed-notes';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { simulate, type Faults } from '../../src/take/simulate';
import { writeMidiFile } from '../../src/take/write-midi-file';
import type { RawMessage } from '../../src/kit/raw-message';
import { answerOf, runCommand } from './run-command';

const folder = mkdtempSync(join(tmpdir(), 'assess-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const FILE = {
  title: 'Slack Rope',
  meter: '4/4',
  tempoBpm: 100,
  subdivision: 4,
  grouping: 'R L R K L',
  cycle: 10,
  layers: [
    { name: 'Sticking' },
    { name: 'Accents', changes: [{ where: { positions: [1, 6] }, set: { level: 'accent' } }] },
    {
      name: 'Ghosts',
      changes: [{ where: { limb: 'L' }, set: { level: 'ghost' } }],
    },
  ],
};
const checked = checkPhrase(FILE);
if (!checked.ok) throw new Error(checked.errors[0]!.message);
const phrase = checked.value;
const phrasePath = join(folder, 'slack-rope.json');
writeFileSync(phrasePath, JSON.stringify(FILE));

/** A sixteenth at 100 bpm is 150 ms; three cycles of ten are 4.5 s. */
const due = timedNotes(
  { phrase, passages: [{ fromBar: 1, layer: 3 }], tempo: steadyTempo(100), windows: {} },
  4_499_000,
);

function take(
  name: string,
  faults: Faults,
  change = (messages: readonly RawMessage[]) => messages,
) {
  const messages = change(simulate(due, faults, 5).messages);
  const path = join(folder, name);
  const bytes = writeMidiFile({
    messages,
    tempos: steadyTempo(100).changes,
    meter: phrase.meter,
    countInBars: 1,
  });
  writeFileSync(path, bytes);
  return path;
}

interface Report {
  phrase: string;
  layer: number;
  layerName: string;
  tempoBpm: number;
  toleranceMs: number;
  notes: Record<string, unknown>[];
  extras: Record<string, unknown>[];
  layers: Record<string, unknown>[];
  dynamics: { contrastDb: number | null; separation: number | null };
  gate: Record<string, unknown>;
  levelsNotJudged: unknown[];
  slips: unknown[];
  followed: unknown;
  findings: string[];
}

async function assess(path: string, ...more: string[]): Promise<Report> {
  const { status, stdout, stderr } = await answerOf(
    'assess',
    path,
    '--phrase',
    phrasePath,
    '--count-in',
    '1',
    '--json',
    ...more,
  );
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return JSON.parse(stdout) as Report;
}

describe('assess', () => {
  it('tells a take without faults note by note', async () => {
    const report = await assess(take('clean.mid', {}));
    expect(report).toMatchObject({
      phrase: 'Slack Rope',
      layer: 3,
      layerName: 'Ghosts',
      toleranceMs: 35,
      extras: [],
      // 30 notes of the 55 without a fault that it takes, in cycles of ten.
      gate: {
        passed: false,
        asWritten: 1,
        threshold: 0.85,
        bound: 'all notes',
        cleanCyclesToPass: 3,
      },
    });
    expect(report.tempoBpm).toBeCloseTo(100, 4);
    expect(report.notes).toHaveLength(30);
    expect(report.notes[1]).toEqual({
      bar: 1,
      beat: '1 1/4',
      cycle: 1,
      position: 2,
      voice: 'snare',
      limb: 'L',
      level: 'ghost',
      grace: false,
      expectedMs: 150,
      verdict: 'in time',
      offsetMs: 0,
      velocity: 28,
      struck: 'snare',
      levelVerdict: 'as written',
    });
    // 40 log10(112/28): four times the velocity is 24.08 dB by the level law.
    expect(report.dynamics.contrastDb).toBeCloseTo(24.08, 2);
    expect(report.dynamics.separation).toBe(1);
  });

  it('tells each fault where it is: late, early, missed, wrong voice, extra, double trigger, crosstalk', async () => {
    const path = take('faults.mid', {}, (messages) => {
      const changed = messages.map((message) => ({ ...message }));
      changed[3]!.timeUs += 60_000;
      changed[5]!.timeUs -= 50_000;
      changed[8]!.data1 = 51;
      changed[11]!.data2 = 90;
      const stroke = (timeUs: number, data1: number, data2: number) => ({
        timeUs,
        status: 0x99,
        data1,
        data2,
      });
      changed.splice(14, 1);
      changed.push(stroke(2_475_000, 49, 70), stroke(12_000, 38, 30), stroke(1_352_000, 45, 3));
      return changed.sort((a, b) => a.timeUs - b.timeUs);
    });
    const report = await assess(path);
    const told = report.notes.flatMap((note, i) =>
      note['verdict'] === 'in time' && note['levelVerdict'] === 'as written'
        ? []
        : [[i, note['verdict'], note['offsetMs'], note['struck'], note['levelVerdict']]],
    );
    expect(told).toEqual([
      [3, 'late', 60, 'bass drum', 'as written'],
      [5, 'early', -50, 'snare', 'as written'],
      [8, 'wrong voice', 0, 'ride', 'as written'],
      [11, 'in time', 0, 'snare', 'too loud'],
      [14, 'missed', null, null, null],
    ]);
    // Times between two ticks of the file are told by the nearer one, a tenth of a millisecond at most.
    const extras = report.extras.map((extra) => ({
      ...extra,
      atMs: Math.round(extra['atMs'] as number),
    }));
    expect(extras).toEqual([
      { atMs: 12, voice: 'snare', velocity: 30, why: 'double trigger' },
      { atMs: 1352, voice: 'mid tom', velocity: 3, why: 'crosstalk' },
      { atMs: 2475, voice: 'crash', velocity: 70, why: 'extra' },
    ]);
  });

  it('judges by the tolerance and the layer it is given', async () => {
    const path = take('late.mid', { biasMs: 20 });
    const narrow = await assess(path, '--tolerance', '10', '--layer', '1');
    expect(narrow.toleranceMs).toBe(10);
    expect(narrow.layerName).toBe('Sticking');
    expect(new Set(narrow.notes.map((note) => note['verdict']))).toEqual(new Set(['late']));
    expect(narrow.notes.map((note) => note['offsetMs'])).toEqual(Array(30).fill(20));
  });

  it('tells that a tolerance is beyond the reach, in the report and beside the figures', () => {
    const path = take('beyond.mid', { biasMs: 20 });
    const words = [path, '--phrase', phrasePath, '--count-in', '1', '--reach', '100'];
    const warnings = (toleranceMs: number) =>
      assessWords([...words, '--tolerance', String(toleranceMs)]).assessed.warnings;
    expect(warnings(100)).toEqual([]);
    expect(warnings(100.5)).toEqual([
      'The tolerance of 100.5 ms is more than the reach of 100 ms: a stroke farther off answers no note, so none is early or late. Give a smaller --tolerance or a larger --reach.',
    ]);
    const { assessed } = assessWords([...words, '--tolerance', '150']);
    expect(assessJson(assessed).warnings).toEqual(warnings(150));
    expect(assessReport(assessed)).toContain(warnings(150)[0]);
  });

  it.each([
    ['tolerance', '-1'],
    ['tolerance', '0'],
    ['tolerance', '0.9'],
    ['tolerance', 'wide'],
    ['tolerance', 'NaN'],
    ['tolerance', '500.1'],
    ['reach', '-0.5'],
    ['reach', '0'],
  ])('says of --%s %s which number was expected', (name, value) => {
    const words = ['x.mid', '--phrase', phrasePath, `--${name}`, value];
    expect(() => assessWords(words)).toThrow(
      `command line: --${name} ${value}: expected a number from 1 to 500.`,
    );
  });

  it.each(['1', '500'])('takes --tolerance %s', (value) => {
    const words = [take('edge.mid', {}), '--phrase', phrasePath, '--tolerance', value];
    expect(assessWords(words).assessed.window.toleranceUs).toBe(Number(value) * 1000);
  });

  it('has a row for every layer up to the one played, with undefined figures where no note is due', async () => {
    const path = take('short.mid', {}, (messages) => messages.slice(0, 1));
    const report = await assess(path);
    // Position 1 belongs to the sticking and the accents; the first ghost comes a sixteenth later.
    expect(report.layers).toMatchObject([
      { layer: 1, name: 'Sticking', notes: 1, asWritten: 1 },
      { layer: 2, name: 'Accents', notes: 1, asWritten: 1 },
      {
        layer: 3,
        name: 'Ghosts',
        notes: 0,
        asWritten: null,
        offsetMeanMs: null,
        offsetSpreadMs: null,
      },
    ]);
  });

  it('tells where the place was lost, and what the take is against the place that was played', async () => {
    expect(await assess(take('kept.mid', {}))).toMatchObject({ slips: [], followed: null });
    const path = take('slipped.mid', { lostPlace: { afterCycles: 1, slipMs: 300 } });
    const { slips, followed, findings } = await assess(path);
    expect(slips).toEqual([{ fromMs: expect.any(Number) as number, toMs: null, partials: 2 }]);
    // Nothing is played on the two sixteenths at which it begins.
    expect(followed).toMatchObject({ notes: 32, asWritten: 30 / 32 });
    expect(findings).toEqual([expect.stringMatching(/^Slipped two sixteenths late since bar 1\./)]);
  });

  it('judges no level on a pad that sends one velocity, and says so in report and JSON', async () => {
    const path = take('flat.mid', {}, (messages) =>
      messages.map((message) => (message.data1 === 38 ? { ...message, data2: 64 } : message)),
    );
    const report = await assess(path);
    expect(report.levelsNotJudged).toEqual([{ pad: 38, velocity: 64, notes: 24 }]);
    expect(report.gate).toMatchObject({ asWritten: 1 });
    expect(report.dynamics).toEqual({ contrastDb: null, separation: null });
    const levels = report.notes.map(({ voice, levelVerdict }) =>
      JSON.stringify([voice, levelVerdict]),
    );
    expect(new Set(levels)).toEqual(new Set(['["snare",null]', '["bass drum","as written"]']));
    const words = [path, '--phrase', phrasePath, '--count-in', '1'];
    expect(assessReport(assessWords(words).assessed)).toContain(
      'Acoustic snare sends one velocity (64): the level of 24 notes there is not judged.',
    );
  });

  it('prints a report that a person can read', () => {
    const { stdout, status } = runCommand(
      'assess',
      take('readable.mid', { biasMs: 20 }),
      '--phrase',
      phrasePath,
      '--count-in',
      '1',
    );
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Slack Rope · layer 3, Ghosts · 100 bpm\n30 notes: 30 in time/);
    expect(stdout).toContain('Nothing to say about time yet: 30 of 92 strokes.');
    expect(stdout).toMatch(/left hand\s+12\s+100 %\s+\+20\.0/);
  });

  it('prints three findings and says how many more the JSON has', () => {
    const path = join(folder, 'many.mid');
    const plan = { phrase, passages: [{ fromBar: 1, layer: 3 }], tempo: steadyTempo(100) };
    const notes = timedNotes({ ...plan, windows: {} }, 59_999_000);
    const { messages } = simulate(
      notes,
      { spreadMs: 8, missed: 0.2, wrongVoices: 0.15, extra: 0.2, loudGhosts: 0.5 },
      7,
    );
    const tempos = plan.tempo.changes;
    writeFileSync(path, writeMidiFile({ messages, tempos, meter: phrase.meter, countInBars: 1 }));
    const { assessed } = assessWords([path, '--phrase', phrasePath, '--count-in', '1']);
    const all = assessJson(assessed).findings;
    expect(all.length).toBeGreaterThan(4);
    const lines = assessReport(assessed).split('\n');
    const shown = lines.filter((line) => all.includes(line.trim()));
    expect(shown.map((line) => line.trim())).toEqual(all.slice(0, 3));
    expect(lines).toContain(`  ${all.length - 3} more findings with --json.`);
    // Where there are three at most, nothing is said of more.
    const few = assessWords([take('few.mid', {}), '--phrase', phrasePath, '--count-in', '1']);
    expect(assessReport(few.assessed)).not.toContain('more finding');
  });

  it('says what its tempo counts where that is not quarters', () => {
    const { assessed } = assessWords([
      take('quarters.mid', {}),
      ...['--phrase', phrasePath, '--count-in', '1'],
    ]);
    const { plan } = assessed;
    const headOf = (meter: string) => {
      const counted = checkPhrase({ ...FILE, meter, cycle: 14, subdivision: 2 });
      if (!counted.ok) throw new Error(counted.errors[0]!.message);
      return assessReport({ ...assessed, plan: { ...plan, phrase: counted.value } }).split('\n')[0];
    };
    expect(headOf('4/4')).toBe('Slack Rope · layer 3, Ghosts · 100 bpm');
    expect(headOf('7/8')).toBe('Slack Rope · layer 3, Ghosts · 100 bpm in eighths');
  });

  it('tells swing, faults of the kit and notes without a pad in the words of the app', () => {
    const struck = (timeUs: number, data1: number, data2: number) => [
      { timeUs, status: 0x99, data1, data2 },
    ];
    const path = take('swung.mid', {}, (messages) =>
      [
        // Off-beats a twelfth of a beat late: 7/12 of it against 5/12.
        ...messages.map((one) =>
          one.timeUs % 600_000 === 300_000 ? { ...one, timeUs: one.timeUs + 50_000 } : one,
        ),
        ...struck(10_000, 38, 30),
        ...struck(4_400_000, 10, 60),
      ].toSorted((a, b) => a.timeUs - b.timeUs),
    );
    const { assessed } = assessWords([path, '--phrase', phrasePath, '--count-in', '1']);
    expect(assessReport(assessed).split('\n')).toEqual(
      expect.arrayContaining([
        "Set aside as the kit's fault and not yours: one double trigger.",
        "Not on the kit's note map, and so not judged: note 10 (one time). Give a kit file with --kit.",
        'Off-beat eighths at 1.4 : 1, between 1.4 : 1 and 1.4 : 1 with 95 % certainty; written straight.',
      ]),
    );
    const { swing } = assessJson(assessed);
    expect(swing).toMatchObject({ written: 1, offbeats: 7 });
    expect(swing!.ratio).toBeCloseTo(1.4, 2);
    const few = assessWords([
      take('few-beats.mid', {}, (all) => all.slice(0, 4)),
      '--phrase',
      phrasePath,
      '--count-in',
      '1',
    ]);
    expect(assessJson(few.assessed).swing).toBeNull();
  });

  it.each([
    ['a file that is not there', ['nowhere.mid', '--phrase', phrasePath], 'nowhere.mid: '],
    ['a file that is no MIDI file', [phrasePath, '--phrase', phrasePath], `${phrasePath}: `],
    ['no phrase', ['nowhere.mid'], 'command line: '],
    [
      'a tempo out of range',
      ['x.mid', '--phrase', phrasePath, '--tempo', '0'],
      'command line: --tempo 0',
    ],
    [
      'an option that is not known',
      ['x.mid', '--phrase', phrasePath, '--louder'],
      'command line: ',
    ],
    [
      'a layer that is not there',
      ['x.mid', '--phrase', phrasePath, '--layer', '4'],
      'command line: --layer 4',
    ],
  ])('answers %s with one line and exit code 2', async (_, args, begins) => {
    const { status, stdout, stderr } = await answerOf('assess', ...args);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.startsWith(begins)).toBe(true);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});
