/** Style sheets that did not come. The build's own loader asks for each of them once and then holds it to be there. */
const missingStyles = new Set<HTMLLinkElement>();

addEventListener(
  'error',
  ({ target }) => {
    if (target instanceof HTMLLinkElement && target.rel === 'stylesheet') missingStyles.add(target);
  },
  { capture: true },
);

let fetchingStyles: Promise<void> | undefined;

/** Asks for the style sheets that did not come, whoever waits for them; rejects when one does not come again. */
const stylesAgain = (): Promise<void> =>
  (fetchingStyles ??= fetchMissingStyles().finally(() => (fetchingStyles = undefined)));

async function fetchMissingStyles(): Promise<void> {
  await Promise.all(
    [...missingStyles].map((missing) => {
      missingStyles.delete(missing);
      const again = missing.cloneNode() as HTMLLinkElement;
      return new Promise((come, fail) => {
        again.onload = come;
        again.onerror = () => fail(new Error(`${again.href} could not be fetched.`));
        missing.replaceWith(again);
      });
    }),
  );
}

/** A part of the page that comes with its styles when it is first needed; once it is here, it is given at once. */
export function fetchedOnce<T>(fetchIt: () => Promise<T>): () => T | Promise<T> {
  let here: T | undefined;
  // One at a time: a second import would not wait for the styles that the first has asked for.
  let coming: Promise<T> | undefined;
  const fetchNow = async () => {
    await stylesAgain();
    return (here = await fetchIt());
  };
  return () => here ?? (coming ??= fetchNow().finally(() => (coming = undefined)));
}
