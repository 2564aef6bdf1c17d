// Plays a take in Firefox, over WebDriver BiDi (W3C), and looks for it after a reload, with the question whether the
// data may be kept unanswered. No part of the check: it needs Firefox. The flag is for Node 20.
//
//     npx vite build && node --experimental-websocket .scripts/firefox.mjs [PROGRAM]
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';
import { preview } from 'vite';

register();
const player = new URL('../tests/browser/page/simulated-player.ts', import.meta.url).href;
/** @type {import('../tests/browser/page/simulated-player.js')} */
const { simulatedPlayerScript } = await import(player);

const program = process.argv[2] ?? 'firefox-esr';
const profile = mkdtempSync(join(tmpdir(), 'firefox-'));
writeFileSync(
  join(profile, 'user.js'),
  ['"media.autoplay.default", 0', '"browser.shell.checkDefaultBrowser", false']
    .map((pref) => `user_pref(${pref});\n`)
    .join(''),
);
const server = await preview({
  root: fileURLToPath(new URL('..', import.meta.url)),
  logLevel: 'warn',
  preview: { host: '127.0.0.1', port: 4350, strictPort: false },
});
const address = server.resolvedUrls?.local[0];
const firefox = spawn(
  program,
  [
    '--headless',
    '--no-remote',
    '--profile',
    profile,
    '--remote-debugging-port',
    '0',
    'about:blank',
  ],
  { stdio: ['ignore', 'ignore', 'pipe'] },
);

/** @type {(sentence: string) => never} */
const fail = (sentence) => {
  throw new Error(sentence);
};

/** @returns {Promise<string>} where Firefox listens, from its own words */
const listening = () =>
  new Promise((resolve, reject) => {
    let told = '';
    firefox.on('error', () => reject(new Error(`${program} cannot be started.`)));
    firefox.stderr.on('data', (/** @type {Buffer} */ bytes) => {
      told += String(bytes);
      const [, found] = /WebDriver BiDi listening on (ws:\/\/\S+)/.exec(told) ?? [];
      if (found !== undefined) resolve(found);
    });
  });

/** @param {string} url */
async function connect(url) {
  const socket = new WebSocket(`${url}/session`);
  await new Promise((resolve, reject) => {
    socket.onopen = resolve;
    socket.onerror = () => reject(new Error(`${program} does not answer at ${url}.`));
  });
  /** @type {Map<number, (answer: any) => void>} */
  const waiting = new Map();
  socket.onmessage = ({ data }) => {
    const answer = JSON.parse(data);
    waiting.get(answer.id)?.(answer);
  };
  let last = 0;
  /** @type {(method: string, params: object) => Promise<any>} */
  return async (method, params) => {
    const id = ++last;
    const answered = new Promise((resolve) => waiting.set(id, resolve));
    socket.send(JSON.stringify({ id, method, params }));
    const answer = await answered;
    return answer.type === 'success' ? answer.result : fail(`${method}: ${answer.message}`);
  };
}

/** @param {number} ms */
const pass = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

async function run() {
  const bidi = await connect(await listening());
  await bidi('session.new', { capabilities: {} });
  const { contexts } = await bidi('browsingContext.getTree', {});
  const { context } = contexts[0];

  /** @param {string} expression @returns {Promise<any>} */
  async function evaluate(expression) {
    const { result, exceptionDetails } = await bidi('script.evaluate', {
      expression,
      target: { context },
      awaitPromise: true,
      userActivation: true,
    });
    return exceptionDetails ? fail(exceptionDetails.text) : result.value;
  }
  /** @param {string} what @param {string} expression */
  async function until(what, expression) {
    for (let tries = 0; tries < 150; tries++) {
      if (await evaluate(`Boolean(${expression})`)) return console.log(`there: ${what}`);
      await pass(200);
    }
    const shown = await evaluate('document.body.innerText');
    fail(`Not there after 30 s: ${what}. The page shows:\n${shown}`);
  }
  /** @param {string} testid */
  const found = (testid) => `document.querySelector('[data-testid=${testid}]')`;
  /** @param {string} hash */
  const goTo = (hash) => evaluate(`location.hash = '${hash}'`);
  const stop = `[...document.querySelectorAll('button')].find((one) => one.textContent.trim() === 'Stop')`;

  await bidi('script.addPreloadScript', {
    functionDeclaration: `() => { ${simulatedPlayerScript()} }`,
  });
  await bidi('browsingContext.navigate', { context, url: address, wait: 'none' });
  await until('the start button', found('start'));
  await evaluate(`${found('start')}.click()`);
  await until('a take that is played', stop);
  await pass(6000);
  await evaluate(`${stop}.click()`);
  await until('what is told of the last take', found('last-take'));
  const isAsked = `Promise.race([navigator.storage.persist(), new Promise((resolve) => setTimeout(resolve, 1000, 'unanswered'))])`;
  console.log(`the question whether the data may be kept: ${await evaluate(isAsked)}`);
  for (const visit of ['first', 'second']) {
    await goTo('log');
    await until(`the take in the log, ${visit} visit`, found('take-row'));
    const count = await evaluate(`document.querySelectorAll('[data-testid=take-row]').length`);
    if (count !== 1) fail(`${count} takes are in the log.`);
    const notices = await evaluate(
      `[...document.querySelectorAll('[data-testid=notice]')].map((one) => one.textContent).join(' ')`,
    );
    if (notices !== '') console.log(`notices: ${notices}`);
    await bidi('browsingContext.reload', { context, wait: 'none' });
    await pass(500);
  }
}

try {
  await run();
  console.log('A take is played, kept and found again.');
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
} finally {
  if (firefox.pid !== undefined) {
    const gone = new Promise((resolve) => firefox.on('exit', resolve));
    firefox.kill();
    await gone;
  }
  await server.close();
  rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
}
