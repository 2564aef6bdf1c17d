import { describe, expect, it } from 'vitest';
import { libraryPhrases } from '../phrase/library-phrases';
import { benchTable } from './bench-table';
import { checkDecompose } from './decompose-bench';
import { checkFollower } from './follower-bench';
import { checkLiveStats } from './live-stats-bench';
import { checkLiveTake } from './live-take-bench';
import { LIVE_PLAYINGS } from './live-playings';
import { plainMerge } from './plain-merge';
import { EVEN, playedColumns, PLAYINGS } from './played-columns';
import { checkSolver } from './solver-bench';
import { checkedTakes } from './takes-bench';
import { checkTakeWork } from './take-work-bench';
import { checkedRuns } from './variations-bench';
import { checkWholeTake } from './whole-take-bench';
import { checkEdit, checkExpand } from './workshop-bench';

// What the benchmarks assert before they time anything, on small takes and without timing.

describe.each(PLAYINGS)('$name playing', (playing) => {
  it('is matched live as it is matched whole', () => {
    checkFollower(playing, 400);
  });
  it('is matched with the safe pairs as without', () => {
    checkWholeTake(playing, 400);
  });
  it('costs what a general assignment solver finds', () => {
    checkSolver(playing, 60);
  });
});

describe.each(LIVE_PLAYINGS)('raw messages, $name', (playing) => {
  it('are judged live as they are judged afterwards', () => {
    checkLiveTake(playing, 400);
  });
});

describe('the figures after a cycle', () => {
  it('are carried from look to look as they would be counted anew', () => {
    expect(checkLiveStats(400).gate.passed).toBe(true);
  });
});

describe('the work on a finished take', () => {
  it('finds the dialled faults', () => {
    checkTakeWork(10);
  });
});

describe('many takes in a folder', () => {
  it('are all judged, with the dialled bias', async () => {
    const { report } = await checkedTakes(3, 0.2);
    expect(report.rows.map(({ row }) => row.layer)).toEqual([3, 3, 3]);
  });
});

describe('taking phrases apart', () => {
  it('keeps the notes of every phrase of the library', () => {
    expect(checkDecompose()).toHaveLength(15);
  });
});

describe('the phrase workshop', () => {
  it('expands every phrase of the library as its own file says', () => {
    expect(checkExpand()).toHaveLength(15);
  });
  it('checks a phrase from the layer on in which a note is changed', () => {
    expect(checkEdit().errors).toEqual([]);
  });
  it('varies a phrase in as many playable ways as asked, bundled as from the sources', async () => {
    const job = { count: 40, runs: 2, threads: 1 };
    const measured = await checkedRuns(libraryPhrases().slice(0, 2), job);
    expect(measured.map(({ threads }) => threads.map((took) => took.length))).toEqual([[2], [2]]);
  });
});

describe('the plain merge', () => {
  it('pairs every note of even playing with a stroke no farther than the reach', () => {
    const played = playedColumns(EVEN, 400);
    const { strokeOfNote } = plainMerge(played);
    expect(new Set(strokeOfNote).size).toBe(400);
    strokeOfNote.forEach((j, i) => {
      const offset = played.strokes.timeUs[j]! - played.notes.timeUs[i]!;
      expect(Math.abs(offset)).toBeLessThanOrEqual(played.reachUs);
    });
  });
});

describe('the table', () => {
  it('stands in columns, says what is not met, and tells a shared note once', () => {
    const row = { asserted: 'the same', p50: '1 µs', tail: 'p99 2 µs', note: 'Shared.' };
    const text = benchTable([
      { ...row, name: 'a', aim: 'p99 < 1 µs', met: false },
      { ...row, name: 'longer', ratio: '3×' },
    ]);
    const [head, , first, second] = text.split('\n');
    expect(first).toContain('a [1]');
    expect(first).toContain('NOT met');
    expect(first!.indexOf('p99')).toBe(head!.indexOf('slow end'));
    expect(second!.indexOf('3×')).toBe(head!.indexOf('ratio'));
    expect(text.match(/Shared\./g)).toHaveLength(1);
  });
});
