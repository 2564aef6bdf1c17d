import { spawnSync } from 'node:child_process';

/** Runs a command of the project as a user would, in a process of its own. */
export function runCommand(name: string, ...args: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['.scripts/run-cli.mjs', name, ...args],
    { encoding: 'utf8', env: { ...process.env, INIT_CWD: process.cwd(), NODE_ENV: 'production' } },
  );
  return { status, stdout, stderr };
}
