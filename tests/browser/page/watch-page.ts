import type { Page } from 'playwright-core';

export interface PageWatch {
  /** Console errors and warnings, uncaught exceptions, and CSP violations, in order. */
  readonly faults: string[];
  /** Addresses asked for over the network; data: and blob: are not. */
  readonly requests: string[];
}

/** Call before `page.goto`, so that nothing of the load is lost. */
export function watchPage(page: Page): PageWatch {
  const watch: PageWatch = { faults: [], requests: [] };
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) watch.faults.push(message.text());
  });
  page.on('pageerror', (error) => watch.faults.push(String(error)));
  page.on('request', (request) => {
    if (/^(https?|wss?):/.test(request.url())) watch.requests.push(request.url());
  });
  return watch;
}
