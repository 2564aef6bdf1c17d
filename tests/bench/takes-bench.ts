import { equal, ok } from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { judgeTakes } from '../../src/cli/many/judge-takes';
import { takePaths } from '../../src/cli/many/take-paths';
import { takesReport, type TakesReport } from '../../src/cli/many/takes-report';
import { timedNotes } from '../../src/match/timed-notes';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { simulate } from '../../src/take/simulate';
import { writeMidiFile } from '../../src/take/write-midi-file';
import { steadyTempo } from '../../src/time/tempo';
import { benchPhrase, SLACK_WATER } from './bench-phrases';
import { duration, type BenchRow } from './bench-row';

const phrase = benchPhrase(SLACK_WATER);
const LAYER = phrase.layers.length;
/** Late as a whole and uneven a little: far from the windows of the neighbours, 125 ms away. */
const FAULTS = { biasMs: 12, spreadMs: 8, missed: 0.03, velocitySpread: 4 };

/** So many takes of so many minutes, each played anew, in a folder that `assess` is given. */
export async function checkedTakes(
  count: number,
  minutes: number,
): Promise<{ readonly report: TakesReport; readonly tookMs: number }> {
  const folder = mkdtempSync(join(tmpdir(), 'takes-bench-'));
  try {
    const tempo = steadyTempo(phrase.tempoBpm);
    const plan = { phrase, passages: [{ fromBar: 1, layer: LAYER }], tempo, windows: {} };
    const due = timedNotes(plan, minutes * 60e6 - 1);
    for (let seed = 1; seed <= count; seed++) {
      const { messages } = simulate(due, FAULTS, seed);
      const { meter } = phrase;
      const bytes = writeMidiFile({ messages, tempos: tempo.changes, meter, countInBars: 1 });
      writeFileSync(join(folder, `take-${String(seed).padStart(5, '0')}.mid`), bytes);
    }
    const settings = {
      ...{ phraseText: writePhrase(phrase), kitText: undefined, layer: undefined },
      ...{ countInBars: 1, tempoBpm: undefined, windows: {} },
    };
    const startMs = performance.now();
    const paths = takePaths([folder], []);
    const report = takesReport(paths, await judgeTakes(paths, settings, () => undefined));
    const tookMs = performance.now() - startMs;
    equal(report.rows.length, count);
    equal(report.unread.length, 0);
    ok(Math.abs(report.all.offsetMeanMs! - FAULTS.biasMs) < 1, `mean ${report.all.offsetMeanMs}`);
    return { report, tookMs };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** `assess` over a folder: minutes of work, so that it is done on request only. */
export async function takesRow(count: number, minutes: number): Promise<BenchRow> {
  const { report, tookMs } = await checkedTakes(count, minutes);
  return {
    name: `assess over a folder, ${count} takes of ${minutes} minutes`,
    asserted: 'all read, the dialled bias',
    p50: `${(tookMs / 1000).toFixed(0)} s`,
    tail: `${duration(tookMs / count)} a take`,
    note: `${report.all.notes} notes in all, read from MIDI files and judged on up to ${availableParallelism()} cores; once.`,
  };
}
