import { spawn, spawnSync, type SpawnSyncOptions } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';

const scratch = mkdtempSync(join(tmpdir(), 'start-'));
chmodSync(scratch, 0o755);
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** An npm that cannot install, so that no test goes to a registry. */
const NPM = join(scratch, 'npm.js');
writeFileSync(NPM, 'process.stderr.write("no network\\n"); process.exit(1);');

const run = (folder: string, script: string, ...args: readonly string[]) =>
  runWith({}, folder, script, ...args);

function runWith(
  options: SpawnSyncOptions,
  folder: string,
  script: string,
  ...args: readonly string[]
) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(folder, '.scripts', script), ...args],
    { ...options, encoding: 'utf8', env: { ...process.env, ...options.env, npm_execpath: NPM } },
  );
  return { status, stdout, stderr };
}

/** Root may write everywhere, so somebody else runs it then. */
const NOBODY = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};

/** A project with the scripts of this one and with one package, `vite` or `tsx`, that cannot be loaded. */
function damagedProject(name: string, packageName: string) {
  const folder = join(scratch, name);
  const inPackage = join(folder, 'node_modules', packageName);
  mkdirSync(inPackage, { recursive: true });
  cpSync('.scripts', join(folder, '.scripts'), { recursive: true });
  cpSync('package.json', join(folder, 'package.json'));
  const packages = { '': {}, [`node_modules/${packageName}`]: { version: '1.0.0' } };
  writeFileSync(join(folder, 'package-lock.json'), JSON.stringify({ packages }));
  writeFileSync(join(folder, 'node_modules', '.package-lock.json'), JSON.stringify({ packages }));
  writeFileSync(join(inPackage, 'package.json'), '{ "main": "gone.js" }');
  return folder;
}

/** The scripts and packages of this project, and nothing to build. */
function withoutPage(name: string): string {
  const folder = join(scratch, name);
  mkdirSync(folder);
  for (const part of ['.scripts', 'package.json', 'package-lock.json'])
    cpSync(part, join(folder, part), { recursive: true });
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'));
  return folder;
}

async function someServer() {
  const other = createServer();
  await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
  return { other, port: (other.address() as AddressInfo).port };
}

async function freePort() {
  const { other, port } = await someServer();
  await new Promise((done) => other.close(done));
  return port;
}

const ONE_LINE = /^[^\n]+\n$/;

describe('npm start', () => {
  it('takes no other port than it is given: what is kept belongs to the port', async () => {
    const { other, port } = await someServer();
    const { status, stdout, stderr } = run('.', 'start.mjs', '--port', String(port));
    other.close();
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(ONE_LINE);
    expect(stderr).toContain(`Port ${port} is taken`);
    expect(stderr).toContain(`npm start -- --port ${port + 1}`);
  });

  it('says in one line that a port is refused', () => {
    // Who may have which port differs from machine to machine: the words are those of Node where it may not.
    const refusing = join(scratch, 'refusing.mjs');
    writeFileSync(
      refusing,
      `import { Server } from 'node:net';
      Server.prototype.listen = function () {
        const error = new Error('listen EACCES: permission denied 127.0.0.1:80');
        process.nextTick(() => this.emit('error', Object.assign(error, { code: 'EACCES', errno: -13, syscall: 'listen' })));
        return this;
      };`,
    );
    const env = { NODE_OPTIONS: `--import=${pathToFileURL(refusing).href}` };
    const { status, stdout, stderr } = runWith({ env }, '.', 'start.mjs', '--port', '80');
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toBe(
      'Port 80 cannot be had (EACCES): give another with npm start -- --port N.\n',
    );
  });

  it.each([
    ['--port', '0'],
    ['--port', '65536'],
    ['--port', '1e3'],
    ['--port', '0x10'],
    ['--port', ''],
    ['--port'],
    ['--prot', '4180'],
    ['4180'],
  ])('says of %s %s what was expected', (...args) => {
    const { status, stdout, stderr } = run('.', 'start.mjs', ...args);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(ONE_LINE);
    expect(stderr).toContain('Usage: npm start -- [--port N]');
  });

  it('says which address to keep to, since what is kept belongs to it, and nothing of its tools', async () => {
    const folder = withoutPage('any-page');
    // A script of 600 kB, of which a bundler has something to say.
    writeFileSync(join(folder, 'main.js'), `console.log(${JSON.stringify('x'.repeat(600_000))});`);
    writeFileSync(
      join(folder, 'index.html'),
      '<!doctype html><title>Page</title><script type="module" src="main.js"></script>',
    );
    const port = await freePort();
    const args = [join(folder, '.scripts', 'start.mjs'), '--port', String(port)];
    const started = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
    let aside = '';
    started.stderr.setEncoding('utf8').on('data', (text: string) => (aside += text));
    let told = '';
    for await (const text of started.stdout.setEncoding('utf8')) {
      told += text;
      if (told.split('\n').length > 2) started.kill();
    }
    expect(aside).toBe('Building ...\n');
    expect(told.split('\n')).toEqual([
      expect.stringContaining(`http://127.0.0.1:${port}/`),
      `What you play is kept for this address alone: http://localhost:${port}/ keeps its own.`,
      '',
    ]);
  });

  it('serves nobody but this machine unasked, and the network when asked, with what a browser then forbids', async () => {
    const folder = withoutPage('network-page');
    writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Page</title>');
    const [address] = Object.values(networkInterfaces())
      .flatMap((all = []) => all)
      .filter(({ family, internal }) => family === 'IPv4' && !internal)
      .map((one) => one.address);
    for (const asked of [false, true]) {
      const port = await freePort();
      const args = [join(folder, '.scripts', 'start.mjs'), '--port', String(port)];
      if (asked) args.push('--network');
      const started = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'ignore'] });
      let told = '';
      for await (const text of started.stdout.setEncoding('utf8')) {
        told += text;
        if (told.split('\n').length <= (asked && address ? 4 : 2)) continue;
        const page = await fetch(`http://${address ?? '127.0.0.1'}:${port}/`).then(
          ({ ok }) => ok,
          () => false,
        );
        expect(page).toBe(asked || address === undefined);
        started.kill();
      }
      expect(told.includes('neither MIDI nor the microphone')).toBe(asked && address !== undefined);
      if (asked && address) expect(told).toContain(`http://${address}:${port}/`);
    }
  });

  it('says in one line why the app was not built', async () => {
    const folder = withoutPage('no-page');
    const { status, stdout, stderr } = run(folder, 'start.mjs', '--port', String(await freePort()));
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(
      /^Building \.\.\.\nThe app was not built \(.*index\.html.*\): [^\n]+\n$/,
    );
  });

  it.each(['a#b', 'a?b'])('does not try to build in a folder called %s', (name) => {
    const { status, stderr } = run(damagedProject(name, 'vite'), 'start.mjs');
    expect(status).toBe(1);
    expect(stderr).toMatch(ONE_LINE);
    expect(stderr).toContain(`${name}/: rename it`);
  });
});

describe.each(['start.mjs', 'check.mjs'])('%s where nothing may be written', (script) => {
  it.each([
    ['the folder itself', '.'],
    ['node_modules', 'node_modules'],
    ['what a build left there', 'dist/assets'],
  ])('says so in one line: %s', (_, name) => {
    const folder = damagedProject(`${script}-${name.length}`, 'vite');
    mkdirSync(join(folder, 'dist', 'assets'), { recursive: true });
    for (const path of ['', 'node_modules', 'dist', 'dist/assets'])
      chmodSync(join(folder, path), 0o777);
    chmodSync(join(folder, name), 0o555);
    const ended = runWith(NOBODY, folder, script);
    chmodSync(join(folder, name), 0o755);
    expect(ended).toEqual({
      status: 1,
      stdout: '',
      stderr: `${join(folder, name === '.' ? '/' : name)} cannot be written to (EACCES): copy the project to a folder of your own.\n`,
    });
  });

  it('says so before it installs what is missing', () => {
    const folder = damagedProject(`${script}-without-packages`, 'vite');
    rmSync(join(folder, 'node_modules'), { recursive: true });
    chmodSync(folder, 0o555);
    const { status, stdout, stderr } = runWith(NOBODY, folder, script);
    chmodSync(folder, 0o755);
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(ONE_LINE);
    expect(stderr).toContain('cannot be written to');
  });
});

describe('packages that cannot be loaded', () => {
  it.each([
    ['start.mjs', 'vite', []],
    ['run-cli.mjs', 'tsx', ['expand', 'x.json']],
  ] as const)('end %s with one line and the remedy', (script, packageName, args) => {
    const { status, stdout, stderr } = run(
      damagedProject(packageName, packageName),
      script,
      ...args,
    );
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(ONE_LINE);
    expect(stderr).toMatch(/^node_modules is damaged \(.+\): delete that folder/);
  });

  it.each([
    ['the list of what is installed', 'node_modules/.package-lock.json'],
    ['the package', 'node_modules/tsx/package.json'],
  ])('are installed again when %s is gone', (_, gone) => {
    const folder = damagedProject(`without-${gone.length}`, 'tsx');
    rmSync(join(folder, gone));
    expect(run(folder, 'run-cli.mjs', 'expand', 'x.json')).toEqual({
      status: 1,
      stdout: '',
      stderr:
        'Installing packages (npm ci) ...\nno network\nnpm ci failed; its own message is above.\n',
    });
  });

  it('are installed again when the list of what is installed is damaged', () => {
    const folder = damagedProject('cut', 'tsx');
    writeFileSync(join(folder, 'node_modules', '.package-lock.json'), '{ "packages": ');
    expect(run(folder, 'run-cli.mjs', 'expand', 'x.json').stderr).toContain('npm ci failed');
  });

  it.each(['package.json', 'package-lock.json'])('end with one line when %s is damaged', (name) => {
    const folder = damagedProject(`damaged-${name}`, 'tsx');
    writeFileSync(join(folder, name), '{');
    const { status, stderr } = run(folder, 'run-cli.mjs', 'expand', 'x.json');
    expect(status).toBe(1);
    expect(stderr).toMatch(ONE_LINE);
    expect(stderr.startsWith(`${name} cannot be read (`)).toBe(true);
  });
});
