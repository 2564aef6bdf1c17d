/** As on a page that is no secure context (Web Locks API, 4: `[SecureContext]`), until the returned function is called. */
export function withoutLocks(): () => void {
  Object.defineProperty(navigator, 'locks', { configurable: true, value: undefined });
  return () => void Reflect.deleteProperty(navigator, 'locks');
}
