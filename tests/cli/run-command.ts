import { spawnSync } from 'node:child_process';

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

/** The same, with its output piped into a shell's `reader`. */
export function runPiped(reader: string, name: string, ...args: readonly string[]) {
  const words = [process.execPath, '.scripts/run-cli.mjs', name, ...args];
  const command = `${words.map((word) => `'${word}'`).join(' ')} | ${reader}`;
  const { stdout, stderr } = spawnSync('sh', ['-c', command], {
    encoding: 'utf8',
    env: environment,
  });
  return { stdout, stderr };
}
