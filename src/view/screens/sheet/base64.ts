/** @example base64(new Uint8Array([77, 97, 110])) // => 'TWFu' */
export function base64(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
}
