import type { MethodName } from './method';

/** From whatever is pressed to the shell, which fetches the answer: what is fetched first knows neither. */
const ASKED = 'ask-method';

export function askMethod(of: MethodName): void {
  dispatchEvent(new CustomEvent(ASKED, { detail: of }));
}

/** Calls back whenever it is asked how something is worked out; gives back the function that stops it. */
export function onMethodQuestion(show: (of: MethodName) => void): () => void {
  const listen = (event: Event) => show((event as CustomEvent<MethodName>).detail);
  addEventListener(ASKED, listen);
  return () => removeEventListener(ASKED, listen);
}
