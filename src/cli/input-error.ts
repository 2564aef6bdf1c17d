/** Wrong input: its message is the one line a user sees. */
export class InputError extends Error {}

/** What a command is asked for with, and its description. */
export interface Manual {
  readonly usage: string;
  readonly help: string;
}

/**
 * Runs a command, or prints its manual where `--help` is among the words; wrong input becomes one line on standard error and exit code 2. A reader that has had
 * enough, as `head`, is no fault.
 */
export async function runCommand(
  args: readonly string[],
  { usage, help }: Manual,
  command: () => void | Promise<void>,
): Promise<void> {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  if (args.includes('--help')) {
    process.stdout.write(`npm run -s ${usage.replace(' ', ' -- ')}\n${help}\n`);
    return;
  }
  try {
    await command();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    process.stderr.write(`${error.message.replaceAll('\n', ' ')}\n`);
    process.exitCode = 2;
  }
}
