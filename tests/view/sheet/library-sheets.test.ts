import createVerovioModule from 'verovio/wasm';
import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import '../../../src/view/theme/theme.css';
import { layerScore } from '../../../src/notation/score/layer-score';
import { engraveSheet } from '../../../src/notation/sheet/engrave-sheet';
import type { SheetLook } from '../../../src/notation/sheet/sheet-look';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { A4_AT_A_DESK } from '../../notation/a4-at-a-desk';
import { sheetFaults } from './sheet-faults';
import { CROWDED } from './crowded-phrases';

const FILES: Readonly<Record<string, string>> = import.meta.glob('/shared/phrases/*.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});

const LOOKS: Readonly<Record<string, SheetLook>> = {
  'A4, at a desk': A4_AT_A_DESK,
  'Letter, at a desk': { ...A4_AT_A_DESK, paper: 'Letter' },
  'A4, from the throne, without stickings': {
    ...A4_AT_A_DESK,
    size: 'stand',
    hasStickings: false,
  },
};

let engraver: VerovioToolkit;
const host = document.createElement('div');
host.style.fontFamily = 'var(--font-text)';
beforeAll(async () => {
  const module = await createVerovioModule();
  enableLog(LOG_OFF, module);
  engraver = new VerovioToolkit(module);
  document.body.append(host);
  await document.fonts.load('600 16px "Source Sans 3 Variable"');
});
afterAll(() => host.remove());

const phrases = [...Object.values(FILES), ...CROWDED].map((text) => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  return parsed.value;
});

describe.each(Object.entries(LOOKS))('every sheet on %s', (_, look) => {
  it.each(phrases.map((phrase) => [phrase.title, phrase] as const))('%s', (_title, phrase) => {
    const faults = phrase.layers.flatMap(({ name }, i) => {
      const score = layerScore(phrase, i + 1);
      const picture = engraveSheet(engraver, score, look);
      return sheetFaults(host, score, picture, look).map((fault) => `${name}, ${fault}`);
    });
    expect(faults.slice(0, 12)).toEqual([]);
  });
});
