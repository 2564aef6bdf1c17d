import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import { bothAnswers, type BothAnswers } from './same-answers';
import { runCommand } from './run-command';

const SEEDS = longRunCount(180, 3);
const folder = mkdtempSync(join(tmpdir(), 'answers-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe(`the command line and the app, ${SEEDS} seeds with and without a click`, () => {
  let answers: readonly BothAnswers[];
  let refused: readonly BothAnswers[];
  beforeAll(() => {
    answers = [...bothAnswers(SEEDS, folder)];
    refused = answers.filter(({ cli }) => 'refusal' in (cli as object));
  }, 600_000);

  it('answer the same, whether a phrase was written down or refused, and judge the same', () => {
    expect(answers).toHaveLength(3 * SEEDS);
    for (const { about, app, cli } of answers) expect(cli, about).toEqual(app);
  });

  it('meet both: takes that are written down, and takes that are refused', () => {
    expect(refused.length).toBeGreaterThan(SEEDS / 4);
    expect(refused.length).toBeLessThan(2 * SEEDS - SEEDS / 4);
  });

  it('are compared by a command, on as many as are asked for', () => {
    const { status, stdout, stderr } = runCommand('answers', '2', '1');
    expect([status, stdout, stderr]).toEqual([0, '0 of 3 answers differ.\n', '']);
  });

  it('say in a process of its own what they say inside one', () => {
    const { about } = refused[0]!;
    const seed = /seed (\d+)/.exec(about)![1]!;
    const words = about.includes('to the click') ? ['--tempo', '90'] : [];
    const path = join(folder, `${words.length > 0 ? 'click' : 'free'}-${seed}.mid`);
    const { status, stdout, stderr } = runCommand('capture', path, ...words);
    const { refusal } = refused[0]!.cli as { refusal: string };
    expect([status, stdout, stderr]).toEqual([2, '', `${path}: ${refusal}\n`]);

    const written = answers.find(
      ({ about, cli }) => about.includes('to the click') && 'phrase' in (cli as object),
    );
    const { findings, phrase } = written!.cli as {
      findings: { sentence: string }[];
      phrase: { tempoBpm: number };
    };
    const writtenPath = join(folder, `click-${/seed (\d+)/.exec(written!.about)![1]!}.mid`);
    const printed = runCommand('capture', writtenPath, '--tempo', String(phrase.tempoBpm));
    expect({ ...(JSON.parse(printed.stdout) as object), title: '' }).toEqual(phrase);
    for (const { sentence } of findings) expect(printed.stderr).toContain(sentence);
  });
});
