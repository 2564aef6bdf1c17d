import { existsSync } from 'node:fs';

const CANDIDATES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/opt/google/chrome/chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

/** The system's Chromium: `CHROMIUM_PATH` when set, else the first usual place that exists. */
export function chromiumPath(): string | undefined {
  const named = process.env['CHROMIUM_PATH'];
  return [...(named ? [named] : []), ...CANDIDATES].find((path) => existsSync(path));
}
