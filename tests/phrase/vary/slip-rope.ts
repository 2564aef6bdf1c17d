import { checkPhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';

/** A phrase of one layer, and of what else a test asks for. */
export function slipRope(file: object): Phrase {
  const checked = checkPhrase({
    title: 'Slip Rope',
    meter: '4/4',
    tempoBpm: 90,
    subdivision: 4,
    layers: [{ name: 'Sticking' }],
    ...file,
  });
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return checked.value;
}
