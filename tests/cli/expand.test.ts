import { describe, expect, it } from 'vitest';
import { answerOf, runCommand } from './run-command';

const PHRASE = 'shared/phrases/three-bollards.json';

describe('expand', () => {
  it('prints the target, the realignment and where each cycle starts', async () => {
    const { status, stdout } = await answerOf('expand', PHRASE, '--layer', '1', '--json');
    expect(status).toBe(0);
    const told = JSON.parse(stdout) as {
      realignment: { cycles: number; bars: number };
      cycleStarts: { cycle: number; bar: number; beat: string }[];
      notes: { bar: number; cycle: number }[];
    };
    expect(told.cycleStarts).toHaveLength(told.realignment.cycles);
    expect(told.cycleStarts[0]).toEqual({ cycle: 1, bar: 1, beat: '1' });
    expect(Math.max(...told.notes.map((note) => note.bar))).toBe(told.realignment.bars);
  });

  it('goes as far as it is asked', async () => {
    const { stdout } = await answerOf('expand', PHRASE, '--bars', '2', '--json');
    const { notes } = JSON.parse(stdout) as { notes: { bar: number }[] };
    expect(new Set(notes.map((note) => note.bar))).toEqual(new Set([1, 2]));
  });

  it('refuses more bars than it goes', async () => {
    const { status, stdout, stderr } = await answerOf('expand', PHRASE, '--bars', '10001');
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toContain('10000');
  });

  it('answers wrong input with one line and exit code 2', () => {
    const { status, stdout, stderr } = runCommand('expand', 'package.json');
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^package\.json: .+\n$/);
  });
});
