import { MAX_CYCLE, MAX_NAME, MAX_PATTERN, MAX_SUBDIVISION } from '../../phrase/model/phrase-file';
import { childOf, childrenOf, textOf, type XmlElement } from './xml-tree';

/** What the writer put down of what MusicXML has no word for. */
export interface MusicXmlHints {
  readonly subdivision?: number;
  readonly cycle?: number;
  readonly firstCycleAt?: number;
  /** Partials after which all is the same again, from the first cycle on. */
  readonly period?: number;
}

export function readHints(root: XmlElement): MusicXmlHints {
  const fields = childrenOf(
    childOf(childOf(root, 'identification'), 'miscellaneous'),
    'miscellaneous-field',
  );
  const whole = (name: string, least: number, most: number) => {
    const text = fields.find(({ attributes }) => attributes['name'] === name)?.text.trim() ?? '';
    const value = /^-?\d{1,4}$/.test(text) ? Number(text) : NaN;
    return value >= least && value <= most ? value : undefined;
  };
  const subdivision = whole('subdivision', 1, MAX_SUBDIVISION);
  const cycle = whole('cycle', 1, MAX_CYCLE);
  const period = whole('comes-round-after', 1, MAX_PATTERN);
  const firstCycleAt = whole('first-cycle-at', -MAX_CYCLE, MAX_CYCLE);
  return {
    ...(subdivision !== undefined && { subdivision }),
    ...(cycle !== undefined && { cycle }),
    ...(period !== undefined && { period }),
    ...(firstCycleAt !== undefined && { firstCycleAt }),
  };
}

const UNTITLED = 'Read';

/** Of the work or the movement, in one line. */
export function readTitle(root: XmlElement): string {
  const title = textOf(childOf(root, 'work'), 'work-title') ?? textOf(root, 'movement-title') ?? '';
  return title.replace(/\s+/g, ' ').slice(0, MAX_NAME).trim() || UNTITLED;
}
