import * as v from 'valibot';

import type { CaptureStore } from '../../store/capture-store';
import type { StoreProblem } from '../../store/store-problem';
import type { Result } from '../../time/result';
import { CorrectionsShape, type Corrections } from '../../capture/corrections';
import { decodeTake, type CaptureTake, type DecodedTake } from '../../capture/capture-take';

/** So many of the things played are kept. Chosen. */
export const MOST_CAPTURES = 10;

/** Where it is kept. */
export type Captures = Pick<CaptureStore, 'put' | 'newest' | 'remove' | 'onStoredLater'>;

/** What was played and what the player said of it, over a reload: the player may have played it once and never again. */
export class CaptureHistory {
  readonly #store: Captures;
  /** By the play's id. */
  #said: Readonly<Record<string, Corrections>> = {};
  #plays: readonly DecodedTake[] = $state.raw([]);
  #loading: Promise<void> | undefined;
  #problem: string | undefined = $state();

  constructor(store: Captures) {
    this.#store = store;
    store.onStoredLater(() => (this.#problem = undefined));
  }

  /** The newest first, a few of them. */
  get plays(): readonly DecodedTake[] {
    return this.#plays;
  }
  /** Why what was played goes with the page, if it does. */
  get problem(): string | undefined {
    return this.#problem;
  }

  saidOf({ id }: DecodedTake): Corrections {
    return this.#said[id] ?? {};
  }

  /** Reads what was kept, once; one that is damaged takes none of the others with it. */
  load(): Promise<void> {
    return (this.#loading ??= this.#load());
  }

  async #load(): Promise<void> {
    const stored = await this.#store.newest(MOST_CAPTURES);
    const isListed = (id: string) => this.#plays.some((one) => one.id === id);
    const found = stored.filter(({ take }) => !isListed(take.id));
    for (const { take, corrections } of found) {
      const valid = v.safeParse(CorrectionsShape, corrections);
      if (valid.success) this.#say(take.id, valid.output);
    }
    this.#plays = [...this.#plays, ...found.map(({ take }) => decodeTake(take))].slice(
      0,
      MOST_CAPTURES,
    );
  }

  /** Writes down what was played so far, which is not listed yet; whether it is kept now. */
  async writeSoFar(played: CaptureTake): Promise<boolean> {
    const stored = await this.#store.put(played, {});
    this.#tell(stored);
    return stored.ok;
  }

  /** Lists a play as the newest, in its own place where it is there already, and keeps it with what is said of it. */
  async keep(played: DecodedTake, said: Corrections): Promise<void> {
    this.#say(played.id, said);
    const isListed = this.#plays.some(({ id }) => id === played.id);
    const listed = isListed
      ? this.#plays.map((one) => (one.id === played.id ? played : one))
      : [played, ...this.#plays];
    this.#plays = listed.slice(0, MOST_CAPTURES);
    this.#tell(await this.#store.put(played, said));
    for (const { id } of listed.slice(MOST_CAPTURES)) await this.forget(id);
  }

  /** Forgets a play that is not listed, or no longer. */
  async forget(id: string): Promise<void> {
    await this.#store.remove(id);
  }

  #say(id: string, said: Corrections): void {
    this.#said = { ...this.#said, [id]: said };
  }

  #tell(stored: Result<void, StoreProblem>): void {
    this.#problem = stored.ok
      ? undefined
      : `What you played is kept only until this page is closed. ${stored.errors[0]!.message}`;
  }
}
