/** Those who want to know that something changed; they read what changed themselves. */
export interface Subscribers {
  /** Calls `onChange` at every change until the returned function is called. */
  readonly subscribe: (onChange: () => void) => () => void;
  readonly tell: () => void;
}

export function createSubscribers(): Subscribers {
  const all = new Set<() => void>();
  return {
    subscribe(onChange) {
      const own = () => onChange();
      all.add(own);
      return () => {
        all.delete(own);
      };
    },
    tell() {
      for (const onChange of [...all]) onChange();
    },
  };
}

/** The `subscribe` of a source whose state is always the same. */
export const neverChanges: Subscribers['subscribe'] = () => () => undefined;
