/**
 * A name that nothing else has: 128 random bits as 32 hex digits. Pages that came over plain http have no
 * `crypto.randomUUID` (W3C Web Cryptography: secure contexts only), but this they have.
 *
 * @example randomId().length // => 32
 */
export const randomId = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) =>
    byte.toString(16).padStart(2, '0'),
  ).join('');
