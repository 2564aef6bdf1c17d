import { ROOT, ensureInstalled, giveUp } from './install.mjs';

/** The port to ask for; the next free one is taken when it is in use. */
const PORT = 4173;

ensureInstalled();
process.chdir(ROOT);
const { build, preview } = await import('vite');

process.stderr.write('Building ...\n');
await build({ logLevel: 'warn' });

const server = await preview({
  logLevel: 'warn',
  preview: { host: '127.0.0.1', port: PORT, strictPort: false },
});
const address = server.resolvedUrls?.local[0];
if (address === undefined) giveUp('The server started without an address.');
console.log(`Running at ${address}  (open it in Chrome, Edge or Opera; Ctrl-C stops)`);

for (const signal of ['SIGINT', 'SIGTERM']) {
  process.once(signal, () => {
    void server.close().then(() => process.exit(0));
  });
}
