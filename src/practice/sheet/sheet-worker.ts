import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { engraveSheet } from '../../notation/sheet/engrave-sheet';
import { layerScore } from '../../notation/score/layer-score';
import { phraseOfDraft } from '../../phrase/vary/outcome';
import type { SheetAnswer, SheetJob } from './sheet-job';

/** Made with the first sheet, kept for the next ones. */
let engraver: Promise<VerovioToolkit> | undefined;

async function createEngraver(): Promise<VerovioToolkit> {
  const module = await createVerovioModule();
  enableLog(LOG_OFF, module);
  return new VerovioToolkit(module);
}

async function answer({ draft, layer, bars, look }: SheetJob): Promise<SheetAnswer> {
  try {
    const score = layerScore(phraseOfDraft(draft), layer, bars);
    return { picture: engraveSheet(await (engraver ??= createEngraver()), score, look) };
  } catch (error) {
    // What the engraver throws is no Error, and it cannot be used after it.
    engraver = undefined;
    return { problem: error instanceof Error ? error.message : 'the engraver stopped' };
  }
}

onmessage = async ({ data }: MessageEvent<SheetJob>) => postMessage(await answer(data));
