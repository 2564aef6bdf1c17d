/** Wrong input: its message is the one line a user sees. */
export class InputError extends Error {}

/** Runs a command; wrong input becomes one line on standard error and exit code 2. */
export async function runCommand(command: () => void | Promise<void>): Promise<void> {
  try {
    await command();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    process.stderr.write(`${error.message.replaceAll('\n', ' ')}\n`);
    process.exitCode = 2;
  }
}
