import type { TestProject } from 'vitest/node';
import { serveApp } from './serve-app';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, with a slash at the end. */
    address: string;
    /** The folder it is served from. */
    folder: string;
  }
}

/** One served app for all browser tests. Read the address with `inject('address')`. */
export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const { address, folder, close } = await serveApp();
  project.provide('address', address);
  project.provide('folder', folder);
  return close;
}
