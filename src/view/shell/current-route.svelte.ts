import { createSubscriber } from 'svelte/reactivity';
import { hashOf, routeOf, type Route, type Screen } from './route';

/** The route in the address bar. */
export class CurrentRoute {
  readonly #subscribe = createSubscriber((update) => {
    addEventListener('hashchange', update);
    return () => removeEventListener('hashchange', update);
  });

  get current(): Route {
    this.#subscribe();
    return routeOf(location.hash);
  }

  go(screen: Screen, id?: string): void {
    location.hash = hashOf(screen, id);
  }

  /** Writes another address for what is shown already, for a reload and the way back. */
  stayAt(screen: Screen, id: string): void {
    history.replaceState(null, '', hashOf(screen, id));
  }
}
