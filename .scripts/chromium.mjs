import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

const PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/opt/google/chrome/chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/**
 * The system's Chromium. `CHROMIUM_PATH`, when set, is the only place looked at; else the usual
 * places, then the directories of PATH.
 *
 * @returns {string | undefined} absolute path of the program, undefined when there is none
 */
export function chromiumPath() {
  const named = process.env['CHROMIUM_PATH'];
  if (named) return existsSync(named) ? named : undefined;
  const onPath = (process.env['PATH'] ?? '')
    .split(delimiter)
    .filter((directory) => directory !== '')
    .flatMap((directory) => NAMES.map((name) => join(directory, name)));
  return [...PLACES, ...onPath].find((path) => existsSync(path));
}
