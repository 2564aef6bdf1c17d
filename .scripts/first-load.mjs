import { preview } from 'vite';
import { pathToFileURL } from 'node:url';
import { join } from 'node:path';
import { ROOT, giveUp } from './install.mjs';

// How much has to be fetched until the start button can be pressed, of what `npm run build` left in dist, or in the
// folder that is named.

/** Scripts, gzip, in kB of 1,000 bytes. */
const BUDGET_KB = 100;

const folder = process.argv[2] ?? join(ROOT, 'dist');
const { register } = await import('tsx/esm/api');
register();
const root = pathToFileURL(ROOT);
const { firstLoad } = await import(new URL('tests/browser/page/first-load.ts', root).href);
const { launchChromium } = await import(new URL('tests/browser/page/launch.ts', root).href);

const server = await preview({
  root: ROOT,
  logLevel: 'warn',
  build: { outDir: folder },
  preview: { host: '127.0.0.1', port: 4300, strictPort: false },
});
const browser = await launchChromium();
const address = server.resolvedUrls?.local[0];
/** @type {import('../tests/browser/page/first-load.js').FirstLoad} */
const { scriptBytes, scripts } = await firstLoad(browser, address, folder);
await browser.close();
await server.close();

const kb = (/** @type {number} */ bytes) => (bytes / 1000).toFixed(1);
for (const { name, bytes } of scripts) console.log(`${kb(bytes)} kB ${name}`);
console.log(`figure: ${kb(scriptBytes)} kB of ${BUDGET_KB}`);
if (scriptBytes === 0 || scriptBytes > BUDGET_KB * 1000)
  giveUp(`${kb(scriptBytes)} kB of scripts are fetched until the start button can be pressed.`);
