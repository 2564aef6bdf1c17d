import { existsSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { playwright } from '@vitest/browser-playwright';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { chromiumPath } from './.scripts/chromium.mjs';
import { LongestFirst } from './.scripts/longest-first.mjs';
import { nearInk } from './.scripts/near-ink.mjs';
import { notices } from './.scripts/notices.mjs';

const chromium = chromiumPath();

/** `npm run dev` puts styles into the page by script, which the policy of the built app forbids. */
const looserPolicyInDev: Plugin = {
  name: 'looser-policy-in-dev',
  apply: 'serve',
  transformIndexHtml: (html) =>
    html.replace("style-src 'self'", "style-src 'self' 'unsafe-inline'"),
};

/** What a policy inside the page cannot say (frames), and what else nobody needs to know or guess. */
const HEADERS = {
  'Content-Security-Policy': "frame-ancestors 'none'",
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
};

const headersWhereServed: Plugin = {
  name: 'headers-where-served',
  configurePreviewServer({ config, middlewares }) {
    const assets = resolve(config.root, config.build.outDir, config.build.assetsDir);
    middlewares.use(({ url = '' }, response, next) => {
      for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
      // A name with a hash never means other bytes; one that is missing today may come with the next build.
      const [, asset] = /^\/assets\/([^?]+)/.exec(url) ?? [];
      if (asset !== undefined && existsSync(join(assets, basename(asset))))
        response.setHeader('Cache-Control', 'public, max-age=31536000, immutable');
      next();
    });
  },
};

const RUNS_OF_MODE: Readonly<Record<string, string>> = { 'few-runs': 'few', 'many-runs': 'many' };

/** Many simulated players, hours of practice and whole screens are no part of `npm run unit`. */
const leftToTheCheck = () =>
  process.env['RUNS'] === 'few'
    ? [
        'tests/capture/recovered-free.test.ts',
        'tests/capture/recovered-shares.test.ts',
        'tests/claims/gate-claims.test.ts',
        'tests/clock/clock-map-sessions.test.ts',
        'tests/clock/latency/microphone/measure-offset.test.ts',
        'tests/practice/long-session.test.ts',
        'tests/view/screens/**',
      ]
    : [];

export default defineConfig(({ mode }) => {
  // Vitest reads this file again for every project, and the mode of those is always `test`.
  const runs = RUNS_OF_MODE[mode];
  if (runs !== undefined) process.env['RUNS'] = runs;
  const { inApp, inWorkers } = notices();
  return {
    base: './',
    // One page: another address is not there, and says so.
    appType: 'mpa',
    // Megabytes of one module with its program in it: nothing to be bundled ahead.
    optimizeDeps: { exclude: ['verovio'] },
    plugins: [svelte({ configFile: false }), looserPolicyInDev, headersWhereServed, inApp],
    worker: {
      format: 'es',
      plugins: () => [inWorkers],
      // The engraver asks for it under Node only.
      rolldownOptions: { external: ['node:module'] },
    },
    // Its bundle holds classes that nobody asks for; of its sources only what is asked for is taken.
    resolve: {
      alias: {
        'simple-statistics': resolve(
          import.meta.dirname,
          'node_modules/simple-statistics/index.js',
        ),
      },
    },
    build: {
      target: 'es2022',
      outDir: 'dist',
      assetsInlineLimit: 0,
      // Without it browsers before 2023 load the same scripts one after the other. Vite adapted it from
      // es-module-shims (from memory), whose licence it does not bring.
      modulePreload: { polyfill: false },
      rolldownOptions: {
        treeshake: {
          moduleSideEffects: [{ test: /\/simple-statistics\/src\//, sideEffects: false }],
        },
        // A slow machine is no fault of the project, and what is printed at a start is read.
        checks: { bundlerTimings: false },
        output: {
          // One file of what most parts share in place of a dozen small ones: 13 gave the smallest first load
          // of the counts tried (`node .scripts/first-load.mjs`); 2 drags everything that is shared into it.
          codeSplitting: { groups: [{ name: 'common', minShareCount: 13 }] },
        },
      },
    },
    test: {
      env: { RUNS: process.env['RUNS'] },
      setupFiles: ['tests/law-defaults.ts'],
      // A page may answer late on a busy machine; Vitest would wait for a second.
      expect: { poll: { timeout: 15_000 } },
      // Vitest leaves one core alone; of two, that is half of what there is.
      maxWorkers: '100%',
      sequence: { sequencer: LongestFirst },
      projects: [
        {
          extends: true,
          test: {
            name: 'engine',
            environment: 'node',
            // The engine keeps no state, so its modules are loaded once for all files.
            isolate: false,
            // Laws run thousands of cases, on what browser tests leave over of two slow cores.
            testTimeout: 600_000,
            include: ['tests/**/*.test.ts'],
            exclude: [
              'tests/browser/**',
              'tests/store/**',
              'tests/view/**',
              'tests/**/*.svelte.test.ts',
              ...leftToTheCheck(),
            ],
          },
        },
        {
          extends: true,
          test: {
            name: 'components',
            // After the engine tests: four workers on two cores take each other's cache, measured.
            sequence: { groupOrder: 1 },
            // A page full of notes takes seconds on two slow cores.
            testTimeout: 60_000,
            // The app's modules are loaded once for all files; what a file leaves behind it clears away itself.
            isolate: false,
            setupFiles: ['tests/view/shared-page.ts'],
            include: [
              'tests/store/**/*.test.ts',
              'tests/view/**/*.test.ts',
              'tests/**/*.svelte.test.ts',
            ],
            exclude: ['tests/browser/**', ...leftToTheCheck()],
            browser: {
              enabled: true,
              headless: true,
              screenshotFailures: false,
              expect: {
                toMatchScreenshot: {
                  comparatorName: 'nearInk',
                  comparators: { nearInk },
                  // Drawn with our own fonts, they are nearly the same on every system.
                  resolveScreenshotPath: ({ arg, ext, root, testFileDirectory }) =>
                    join(root, testFileDirectory, `${arg}${ext}`),
                },
              },
              provider: playwright({
                launchOptions: {
                  ...(chromium === undefined ? {} : { executablePath: chromium }),
                  args: ['--no-sandbox', '--disable-background-networking', '--disable-sync'],
                },
              }),
              instances: [{ browser: 'chromium' }],
            },
          },
        },
        {
          extends: true,
          test: {
            name: 'browser',
            environment: 'node',
            include: ['tests/browser/**/*.test.ts'],
            globalSetup: ['tests/browser/page/serve.ts'],
            testTimeout: 120_000,
            hookTimeout: 120_000,
            // They mostly wait for music to be played: few pages at a time share two cores, and beside the ten takes at
            // once that are killed no other page runs.
            fileParallelism: false,
            maxConcurrency: 3,
            sequence: { groupOrder: 2 },
          },
        },
      ],
    },
  };
});
