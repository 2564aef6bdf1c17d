import { spawnSync } from 'node:child_process';
import { vi } from 'vitest';
import { main as assess } from '../../src/cli/assess';
import { main as capture } from '../../src/cli/capture';
import { main as convert } from '../../src/cli/convert';
import { main as expand } from '../../src/cli/expand';
import { main as sheet } from '../../src/cli/sheet';
import { main as claims } from '../claims/run';
import { main as fuzz } from '../fuzz/fuzz-run';
import { main as answers } from './same-answers-run';

const PROGRAMS = { answers, assess, capture, claims, convert, expand, fuzz, sheet };

/** What a command of the project prints, and its exit code, without a process of its own. */
export async function answerOf(name: keyof typeof PROGRAMS, ...args: readonly string[]) {
  const printed = { stdout: '', stderr: '' };
  const mocks = [
    ...(['stdout', 'stderr'] as const).map((to) => vi.spyOn(process[to], 'on').mockReturnThis()),
    ...(['stdout', 'stderr'] as const).map((to) =>
      vi.spyOn(process[to], 'write').mockImplementation((text) => {
        printed[to] += String(text);
        return true;
      }),
    ),
  ];
  const codeBefore = process.exitCode;
  process.exitCode = undefined;
  try {
    await PROGRAMS[name](args);
    return { status: process.exitCode ?? 0, ...printed };
  } finally {
    for (const mock of mocks) mock.mockRestore();
    process.exitCode = codeBefore;
  }
}

const environment = { ...process.env, INIT_CWD: process.cwd(), NODE_ENV: 'production' };

/** Runs a command of the project as a user would, in a process of its own. */
export function runCommand(name: string, ...args: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['.scripts/run-cli.mjs', name, ...args],
    { encoding: 'utf8', env: environment },
  );
  return { status, stdout, stderr };
}

/** The same, with a shell's `redirection` after it, as `| head` or `< take.mid`. */
export function runRedirected(redirection: string, name: string, ...args: readonly string[]) {
  const words = [process.execPath, '.scripts/run-cli.mjs', name, ...args];
  const command = `${words.map((word) => `'${word}'`).join(' ')} ${redirection}`;
  const { status, stdout, stderr } = spawnSync('sh', ['-c', command], {
    encoding: 'utf8',
    env: environment,
  });
  return { status, stdout, stderr };
}
