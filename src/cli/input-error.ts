/** Wrong input: its message is the one line a user sees. */
export class InputError extends Error {}

/**
 * Runs a command; wrong input becomes one line on standard error and exit code 2. A reader that has had
 * enough, as `head`, is no fault.
 */
export async function runCommand(command: () => void | Promise<void>): Promise<void> {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  try {
    await command();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    process.stderr.write(`${error.message.replaceAll('\n', ' ')}\n`);
    process.exitCode = 2;
  }
}
