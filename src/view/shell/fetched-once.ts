/** A part of the page that comes when it is first needed; once it is here, it is given at once. */
export function fetchedOnce<T>(fetchIt: () => Promise<T>): () => T | Promise<T> {
  let here: T | undefined;
  return () => here ?? fetchIt().then((part) => (here = part));
}
