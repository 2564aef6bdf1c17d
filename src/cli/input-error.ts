/** Wrong input: its message is the one line a user sees. */
export class InputError extends Error {}

/** What a command is asked for with, and its description. */
export interface Manual {
  readonly usage: string;
  readonly help: string;
}

/**
 * Runs a command, or prints its manual where `--help` or `-h` is among the words. Wrong input and an output that takes no
 * more become one line on standard error and exit code 2; a reader that has had enough, as `head`, is no fault.
 */
export async function runCommand(
  args: readonly string[],
  { usage, help }: Manual,
  command: () => void | Promise<void>,
): Promise<void> {
  process.stdout.on('error', endWith);
  process.stderr.on('error', () => undefined);
  try {
    if (asksForHelp(args))
      process.stdout.write(`npm run -s ${usage.replace(' ', ' -- ')}\n${help}\n`);
    else await command();
  } catch (error) {
    endWith(error as Error);
  }
}

function asksForHelp(args: readonly string[]): boolean {
  const end = args.indexOf('--');
  const options = end < 0 ? args : args.slice(0, end);
  return options.includes('--help') || options.includes('-h');
}

function endWith(error: NodeJS.ErrnoException): void {
  if (error.code === 'EPIPE') return;
  const isOutput = error.syscall === 'write';
  if (!(error instanceof InputError || isOutput)) throw error;
  const line = isOutput ? `standard output: it takes no more (${error.code}).` : error.message;
  process.stderr.write(`${line.replaceAll('\n', ' ')}\n`);
  process.exitCode = 2;
}
