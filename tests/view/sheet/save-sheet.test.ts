import { afterEach, expect, it, vi } from 'vitest';
import { savePng } from '../../../src/view/screens/sheet/save-sheet';
import { layeredPhrase } from '../../phrase/phrase-of';

const SHEET = {
  phrase: layeredPhrase({ grouping: 'R L K' }, []),
  pictures: [{ layer: 1, layerName: 'Sticking', lines: [], glyphs: {} }],
  look: { paper: 'A4', size: 'desk', hasStickings: true, hasCounts: true, hasMarks: false },
} as const;

afterEach(() => vi.restoreAllMocks());

it('a sheet is saved as PNG, or it is said that it cannot be', async () => {
  const names: string[] = [];
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (
    this: HTMLAnchorElement,
  ) {
    names.push(this.download);
  });
  expect(await savePng(SHEET)).toEqual({ ok: true, value: undefined });
  expect(names).toEqual([expect.stringMatching(/\.png$/)]);
  const decode = vi.spyOn(HTMLImageElement.prototype, 'decode');
  decode.mockRejectedValue(new DOMException('The image cannot be decoded.', 'EncodingError'));
  expect(await savePng(SHEET)).toMatchObject({
    errors: [
      {
        code: 'NO_PICTURE',
        message: expect.stringMatching(/^This browser could not make the picture/) as string,
      },
    ],
  });
  expect(names).toHaveLength(1);
});
