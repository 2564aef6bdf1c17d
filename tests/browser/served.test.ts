import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { launchChromium } from './launch';

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
