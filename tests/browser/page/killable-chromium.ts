import { spawn } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { chromiumPath } from '../../../.scripts/chromium.mjs';

/** A Chromium of our own with a profile that outlives it, so that it can be killed for real. */
export async function startChromium(profile: string) {
  const child = spawn(
    chromiumPath()!,
    [
      '--headless=new',
      '--no-sandbox',
      '--mute-audio',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-sync',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      'about:blank',
    ],
    { detached: true, stdio: 'ignore' },
  );
  const portFile = join(profile, 'DevToolsActivePort');
  for (let tries = 0; ; tries++) {
    await new Promise((resolve) => setTimeout(resolve, 100));
    try {
      const port = readFileSync(portFile, 'utf8').split('\n')[0]!;
      const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
      const kill = () => {
        rmSync(portFile, { force: true });
        process.kill(-child.pid!, 'SIGKILL');
      };
      return { browser, context: browser.contexts()[0]!, kill };
    } catch (error) {
      if (tries > 200) throw error;
    }
  }
}
