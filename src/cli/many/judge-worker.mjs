// Sources are TypeScript, which a thread of its own has to be told anew.
const { register } = await import('tsx/esm/api');
register();
await import(new URL('judge-worker.ts', import.meta.url).href);
