import { chromium, type Browser } from 'playwright-core';
import { chromiumPath } from '../../../.scripts/chromium.mjs';

/** The system's Chromium, without its own background traffic and without sound from the speakers. */
export async function launchChromium(...extraArgs: readonly string[]): Promise<Browser> {
  const executablePath = chromiumPath();
  if (executablePath === undefined) {
    throw new Error('No Chromium found: install it, or set CHROMIUM_PATH to the program.');
  }
  return chromium.launch({
    executablePath,
    // Chromium refuses its sandbox to root, and containers often forbid it to others.
    chromiumSandbox: false,
    args: ['--mute-audio', '--disable-background-networking', '--disable-sync', ...extraArgs],
  });
}
