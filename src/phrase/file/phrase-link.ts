import { bad, good, type Result } from '../../time/result';
import type { Phrase } from '../model/phrase';
import type { PhraseError } from '../model/phrase-error';
import { base64urlBytes, base64urlText } from './base64url';
import { parsePhrases, writeBriefly } from './phrase-list';

/**
 * A link is the app's address, `#open/p1.` and the file of the phrases: UTF-8, deflated (RFC 1951, without a header), as
 * base64url (RFC 4648, 5). What stands after # is never sent to a server. Another number than 1 is another form.
 */
const FORM = 1;
const AHEAD = '#open/';
/** Alone, or in an address with whatever stands around that. */
const LINK = /(?:^|#\/?open\/)p(?<form>\d{1,3})\.(?<payload>[\w-]+)/;

/** Longest payload of a link, characters. Chosen, not measured: a hundred phrases, and what programs still take for an address. */
const MOST_PAYLOAD = 32_000;
/** Most bytes that a payload may inflate to: a small one could inflate to any number. */
const MOST_INFLATED = 1_000_000;

/** How texts are packed: raw deflate of their UTF-8, whatever does that where the program runs. */
export interface LinkPacking {
  /** Undefined where nothing can deflate. */
  readonly deflate: (text: string) => Promise<Uint8Array | undefined>;
  /**
   * The text again. Inflating stops once there are more than `most` bytes.
   *
   * @returns 'too large' then, 'damaged' where it is no whole deflated UTF-8 text, 'not here' where nothing can inflate
   */
  readonly inflate: (
    bytes: Uint8Array,
    most: number,
  ) => Promise<{ readonly text: string } | 'too large' | 'damaged' | 'not here'>;
}

const LINK_MESSAGES = {
  NO_LINK:
    'There is no link to phrases in it. Paste the whole of one that “Copy a link” gave, or the text of a phrase file.',
  NEWER_LINK:
    'It was made by a newer version of this program. Reload the page to get that version, then open the link again.',
  LINK_TOO_LARGE:
    'It holds more than a link can. Nothing was taken from it; ask for a file instead.',
  DAMAGED_LINK:
    'It is cut off or damaged, so no phrase can be read from it. Copy the whole link once more, or ask for a file instead.',
  TOO_MUCH_FOR_A_LINK:
    'This is more than a link can hold. Save it as a file, or choose fewer phrases.',
  NO_DEFLATE: 'This browser is too old for links. Update it, or save a file instead.',
} as const;

/** Why there is no link, or no phrase in one. */
export interface LinkError {
  readonly code: keyof typeof LINK_MESSAGES;
  readonly place: '';
  readonly message: string;
}

const linkError = (code: LinkError['code']): LinkError => ({
  code,
  place: '',
  message: LINK_MESSAGES[code],
});

/** Whether a text is a link, or has one in it. @example isLink('see http://localhost:4173/#open/p1.q1Y') // => true */
export const isLink = (text: string): boolean => LINK.test(text.trim());

/**
 * A link that carries phrases, under an address.
 *
 * @param address of the page, with or without a fragment
 */
export async function writeLink(
  phrases: readonly Phrase[],
  address: string,
  { deflate }: Pick<LinkPacking, 'deflate'>,
): Promise<Result<string, LinkError>> {
  const text = writeBriefly(phrases);
  // No letter of it takes less than a byte.
  if (text.length > MOST_INFLATED) return bad(linkError('TOO_MUCH_FOR_A_LINK'));
  const bytes = await deflate(text);
  if (!bytes) return bad(linkError('NO_DEFLATE'));
  const payload = base64urlText(bytes);
  return payload.length > MOST_PAYLOAD
    ? bad(linkError('TOO_MUCH_FOR_A_LINK'))
    : good(`${address.replace(/#.*$/s, '')}${AHEAD}p${FORM}.${payload}`);
}

/** The phrases of a link, of what stands in it after `#open/`, or of a text with a link in it. */
export async function readLink(
  text: string,
  { inflate }: Pick<LinkPacking, 'inflate'>,
): Promise<Result<readonly Phrase[], LinkError | PhraseError>> {
  const { form, payload } = LINK.exec(text.trim())?.groups ?? {};
  if (form === undefined || payload === undefined) return bad(linkError('NO_LINK'));
  if (Number(form) > FORM) return bad(linkError('NEWER_LINK'));
  if (payload.length > MOST_PAYLOAD) return bad(linkError('LINK_TOO_LARGE'));
  const bytes = base64urlBytes(payload);
  if (!bytes || Number(form) !== FORM) return bad(linkError('DAMAGED_LINK'));
  const inflated = await inflate(bytes, MOST_INFLATED);
  switch (inflated) {
    case 'too large':
      return bad(linkError('LINK_TOO_LARGE'));
    case 'not here':
      return bad(linkError('NO_DEFLATE'));
    case 'damaged':
      return bad(linkError('DAMAGED_LINK'));
    default:
      return parsePhrases(inflated.text);
  }
}
