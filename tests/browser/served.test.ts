import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { launchChromium } from './page/launch';

const address = inject('address');
const folder = inject('folder');

const ask = (path: string, headers: Record<string, string> = {}) =>
  fetch(new URL(path, address), { headers });

const assets = readdirSync(join(folder, 'assets')).filter((name) => !name.endsWith('.map'));

// Frames: CSP Level 3, 6.4.2 (not for <meta>). nosniff: Fetch standard, 3.7. no-referrer: Referrer Policy, 3.1.
// immutable: RFC 8246; a year is the longest that RFC 2616, 14.21, asks servers to say.
describe('what is served', () => {
  it.each(['', 'index.html', `assets/${assets[0]}`, 'licences.txt', 'nothing.html'])(
    'as "%s", may not be framed, is not sniffed and tells nobody where somebody comes from',
    async (path) => {
      const { headers } = await ask(path);
      expect(headers.get('content-security-policy')).toBe("frame-ancestors 'none'");
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('referrer-policy')).toBe('no-referrer');
    },
  );

  it('keeps what has a hash in its name for a year, and asks for the page each time', async () => {
    expect(assets.length).toBeGreaterThan(20);
    expect(assets.filter((name) => !/-[\w-]{8}\.\w+$/.test(name))).toEqual([]);
    for (const name of assets) {
      const { status, headers } = await ask(`assets/${name}?again`);
      expect([status, headers.get('cache-control')]).toEqual([
        200,
        'public, max-age=31536000, immutable',
      ]);
    }
    for (const path of ['', 'index.html', 'licences.txt'])
      expect((await ask(path)).headers.get('cache-control')).toBe('no-cache');
  });

  it.each([
    'nothing',
    'nothing.html',
    'assets/index-00000000.js',
    'src/view/main.ts',
    'package.json',
  ])('has no "%s", and nobody keeps that answer', async (path) => {
    const { status, headers } = await ask(path);
    expect([status, headers.get('cache-control')]).toEqual([404, null]);
  });

  it('says at localhost that another name keeps its own, and at its own name nothing', async () => {
    const browser = await launchChromium();
    const page = await browser.newPage();
    const footer = page.locator('footer');
    await page.goto(address.replace('127.0.0.1', 'localhost'));
    await footer.getByText('What is kept at localhost is not found at 127.0.0.1').waitFor();
    await page.goto(address);
    await footer.getByText('Everything stays on this machine.').waitFor();
    expect(await footer.textContent()).not.toContain('localhost');
    await browser.close();
  });

  it('does not open in the frame of another page', async () => {
    const foreign = createServer((_, response) => {
      response.setHeader('Content-Type', 'text/html');
      response.end(`<iframe src="${address}"></iframe>`);
    });
    await new Promise<void>((resolve) => foreign.listen(0, '127.0.0.1', resolve));
    const browser = await launchChromium();
    try {
      const page = await browser.newPage();
      const refused = page.waitForEvent('console', (told) =>
        told.text().includes('frame-ancestors'),
      );
      await page.goto(`http://127.0.0.1:${(foreign.address() as AddressInfo).port}/`);
      await refused;
      expect(await page.frames().at(-1)!.locator('#app').count()).toBe(0);
    } finally {
      await browser.close();
      foreign.close();
    }
  });
});

describe('the licences', () => {
  const notices = readFileSync(join(folder, 'licences.txt'), 'utf8');
  const named = new Set(
    [...notices.matchAll(/^-{72}\n\n((?:@[\w-]+\/)?[\w.-]+) \d/gm)].map(([, name]) => name!),
  );
  const packageOf = (path: string) =>
    /.*\/node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1] ?? '';

  it('are there for every package whose code is in the app', () => {
    const maps = readdirSync(join(folder, 'assets')).filter((name) => name.endsWith('.js.map'));
    const sources = maps.flatMap(
      (name) =>
        (JSON.parse(readFileSync(join(folder, 'assets', name), 'utf8')) as { sources: string[] })
          .sources,
    );
    const packages = [...new Set(sources.map(packageOf))].filter((name) => name !== '');
    expect(packages).toContain('tone');
    expect(packages).toContain('fft.js');
    expect(packages.filter((name) => !named.has(name))).toEqual([]);
  });

  it('are there for every dependency, and for nothing that only builds and tests', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      dependencies: Record<string, string>;
      devDependencies: Record<string, string>;
    };
    expect(Object.keys(dependencies).filter((name) => !named.has(name))).toEqual([]);
    expect(Object.keys(devDependencies).filter((name) => named.has(name))).toEqual(['vite']);
  });

  it('are there for what the bundler puts in, and for what that was taken from', () => {
    const scripts = assets
      .filter((name) => name.endsWith('.js'))
      .map((name) => [name, readFileSync(join(folder, 'assets', name), 'utf8')] as const);
    const [, main] = scripts.find(([, text]) => text.includes('vite:preloadError'))!;
    expect(scripts.filter(([name]) => name.startsWith('rolldown-runtime'))).toHaveLength(1);
    const textOf = (name: string) =>
      notices.split(/^-{72}$/m).find((text) => text.trim().startsWith(`${name} `));
    expect(textOf('vite')).toMatch(/^Copyright \(c\) 2019-present, VoidZero Inc\. and Vite/m);
    expect(textOf('vite')).not.toContain('bundled dependencies');
    expect(textOf('rolldown')).toMatch(/^Copyright \(c\) 2024-present VoidZero Inc\./m);
    expect(textOf('rolldown')).toContain('Copyright (c) 2020 Evan Wallace');
    // What Vite adapted from elsewhere without that licence stays out: it watches for links that are added.
    expect(main).not.toMatch(/childList/);
  });

  it('are there for every font, as the SIL Open Font License asks (condition 2)', () => {
    const fonts = assets.filter((name) => /\.(woff2?|otf|ttf)$/.test(name));
    const installed = ['@fontsource-variable', '@vexflow-fonts'].flatMap((scope) =>
      readdirSync(join('node_modules', scope), { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.woff2'))
        .map((name) => join('/node_modules', scope, name)),
    );
    expect(fonts.length).toBeGreaterThanOrEqual(5);
    for (const font of fonts) {
      const bytes = readFileSync(join(folder, 'assets', font));
      const from = installed.find((path) => readFileSync(`.${path}`).equals(bytes));
      const notice = notices
        .split(/^-{72}$/m)
        .find((text) => text.trim().startsWith(packageOf(from!)));
      expect(notice).toMatch(/SIL OPEN FONT LICENSE Version 1\.1[^]+PERMISSION & CONDITIONS/);
    }
  });

  it('are whole texts, the app’s own first', () => {
    expect(notices.startsWith(`\uFEFF${readFileSync('LICENSE', 'utf8').trim()}`)).toBe(true);
    for (const text of notices.split(/^-{72}$/m))
      expect(text).toMatch(/WARRANT|PERMISSION|Permission to use/i);
    expect(notices).toContain('Copyright Fedor Indutny, 2017.');
  });

  it('open from Help, in a tab of their own', async () => {
    const browser = await launchChromium();
    const page = await browser.newPage();
    await page.goto(new URL('#help', address).href);
    const [opened] = await Promise.all([
      page.waitForEvent('popup'),
      page.getByRole('link', { name: 'licences of all that is built in' }).click(),
    ]);
    await opened.waitForLoadState();
    expect(await opened.locator('body').textContent()).toContain('MIT License');
    expect(await opened.evaluate(() => document.characterSet)).toBe('UTF-8');
    await browser.close();
  });

  it('go with no program for this machine, which the app has no use for', () => {
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' });
    expect(files.filter((name) => /\.(node|exe|dll|so|dylib|wasm)$/.test(name))).toEqual([]);
    expect([...named].filter((name) => /jazz|jzz/.test(name))).toEqual([]);
  });
});
