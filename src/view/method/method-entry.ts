import { shortText } from '../../words/words';

/** A number of the code that a figure or a verdict depends on. */
export interface MethodNumber {
  /** What it is called in the code. */
  readonly code: string;
  /** With its unit. */
  readonly value: string;
  readonly says: string;
  /** Where it comes from. */
  readonly from: string;
}

/** How one thing that a screen tells is worked out. */
export interface MethodEntry {
  /** As screens call it. */
  readonly name: string;
  /** What it is, in a sentence or two. */
  readonly what: string;
  /** How it is worked out, a paragraph each. */
  readonly how: readonly string[];
  readonly numbers: readonly MethodNumber[];
  readonly source: string;
}

const CHOSEN = 'Chosen, not measured.';

/**
 * A constant by its own name, so that neither name nor value is written a second time.
 *
 * @param constant holds it alone, as in `{ GRACE_US }`
 */
export function methodNumber(
  constant: Readonly<Record<string, number>>,
  text: (value: number) => string,
  says: string,
  from = CHOSEN,
): MethodNumber {
  const [[code, value]] = Object.entries(constant) as [[string, number]];
  return { code, value: text(value), says, from };
}

export const ms = (value: number): string => `${value} ms`;
export const usInMs = (value: number): string => ms(value / 1000);
export const percent = (share: number): string => `${shortText(100 * share, 2)} %`;
export const plain = (value: number): string => String(value);
