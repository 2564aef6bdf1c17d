import { networkInterfaces } from 'node:os';
import { parseArgs, stripVTControlCharacters } from 'node:util';
import { ROOT, ensureInstalled, ensureWritable, giveUp, giveUpOnPackages } from './install.mjs';

/** Browsers keep what was played for an address with its port: no other port is taken unasked. */
const PORT = 4173;
const HOST = '127.0.0.1';
const EVERY_HOST = '0.0.0.0';
/** @type {{ port: { type: 'string' }, network: { type: 'boolean' }, help: { type: 'boolean', short: 'h' } }} */
const OPTIONS = {
  port: { type: 'string' },
  network: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
};
const USAGE = 'Usage: npm start -- [--port N] [--network]';

const { port, network } = optionsAsked();
if (/[#?]/.test(ROOT)) {
  giveUp(`The build cannot read the folder ${ROOT}: rename it so that it has no # and no ? in it.`);
}
ensureWritable();
ensureInstalled();
process.chdir(ROOT);
const { build, preview } = await import('vite').catch(giveUpOnPackages);

// The port comes first: whoever has it already may be serving what the build would take away.
const server = await preview({
  logLevel: 'silent',
  preview: { host: network ? EVERY_HOST : HOST, port, strictPort: true },
}).catch(giveUpOnStart);
process.stderr.write('Building ...\n');
await build({ logLevel: 'silent' }).catch(giveUpOnStart);
console.log(
  `Running at http://${HOST}:${port}/  (open it in Chrome, Edge or Opera; Ctrl-C stops)\n` +
    `What you play is kept for this address alone: http://localhost:${port}/ keeps its own.`,
);
if (network) console.log(networkWords());

for (const signal of ['SIGINT', 'SIGTERM']) {
  process.once(signal, () => {
    void server.close().then(() => process.exit(0));
  });
}

function networkWords() {
  const addresses = Object.values(networkInterfaces())
    .flatMap((all = []) => all)
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => `http://${address}:${port}/`);
  if (addresses.length === 0) return 'This machine is in no network: nobody else reaches it.';
  return (
    `Everybody in this network reaches it at ${addresses.join(' or ')}\n` +
    'There a browser allows neither MIDI nor the microphone, since the address has no https: ' +
    'play on the pads on the screen or the keyboard; a kit works here.'
  );
}

function optionsAsked() {
  try {
    const { values } = parseArgs({ options: OPTIONS });
    if (values.help) {
      console.log(USAGE);
      process.exit(0);
    }
    const { port: text = String(PORT), network = false } = values;
    const number = /^\d{1,5}$/.test(text) ? Number(text) : 0;
    if (number >= 1 && number <= 65_535) return { port: number, network };
    return giveUp(`--port ${text}: expected a whole number from 1 to 65535. ${USAGE}`, 2);
  } catch (error) {
    const [line] = /** @type {Error} */ (error).message.split(/\.(?:\s|$)/);
    return giveUp(`${line}. ${USAGE}`, 2);
  }
}

/**
 * @param {NodeJS.ErrnoException} error
 * @returns {never}
 */
function giveUpOnStart(error) {
  const { code = '', message, syscall } = error;
  if (message.includes('already in use'))
    giveUp(
      `Port ${port} is taken, perhaps by this program in another window (then open http://${HOST}:${port}/); stop what has it, or give another with npm start -- --port ${port + 1}, where nothing is found of what was kept on ${port}.`,
    );
  if (syscall === 'listen')
    giveUp(`Port ${port} cannot be had (${code}): give another with npm start -- --port N.`);
  if (code.includes('MODULE_NOT_FOUND')) giveUpOnPackages(error);
  const lines = stripVTControlCharacters(message).split('\n');
  const why = lines.find((line) => line.trim() !== '' && !/^(Build failed|\[plugin )/.test(line));
  return giveUp(
    `The app was not built (${why?.trim()}): npm run build tells more; a damaged node_modules is cured by deleting that folder.`,
  );
}
