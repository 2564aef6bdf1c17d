import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';

/** Verovio 6.3, silent. */
export async function createEngraver(): Promise<VerovioToolkit> {
  const module = await createVerovioModule();
  enableLog(LOG_OFF, module);
  return new VerovioToolkit(module);
}
