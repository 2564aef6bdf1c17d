/**
 * Whether an address is one that every machine has for itself (RFC 6761, 6.3; RFC 1122, 3.2.1.3; RFC 4291, 2.5.3).
 *
 * @example isOwnMachine('127.0.0.1') // => true
 */
export const isOwnMachine = (hostname: string): boolean =>
  /^(?:(?:.+\.)?localhost|127(?:\.\d+){3}|\[::1\])$/.test(hostname);
