import { EDGE_AND_RIM, GENERAL_MIDI } from '../../kit/built-in-kits';
import type { Kit } from '../../kit/kit';
import { checkKit, parseKit, writeKit } from '../../kit/parse-kit';
import { bad, good, type Result } from '../../time/result';
import type { OwnTextStore } from '../../store/own-text-store';

/** Why a kit is not kept: it is none, or it can be played on but goes with the page. */
export interface KitProblem {
  readonly code: 'NO_KIT' | 'ONLY_IN_MEMORY';
  readonly message: string;
}

/** The kits that come with the app, and the player's own, which are kept. */
export class OwnKits {
  readonly #store: Pick<OwnTextStore, 'put' | 'list' | 'remove'>;
  #own: readonly Kit[] = $state.raw([]);

  constructor(store: Pick<OwnTextStore, 'put' | 'list' | 'remove'>) {
    this.#store = store;
  }

  get all(): readonly Kit[] {
    return [EDGE_AND_RIM, GENERAL_MIDI, ...this.#own];
  }

  /** The kit of that title; General MIDI where there is none. */
  called(title: string): Kit {
    return this.all.find((kit) => kit.title === title) ?? GENERAL_MIDI;
  }

  async load(): Promise<void> {
    const { texts } = await this.#store.list();
    this.#own = texts.flatMap(({ text }) => {
      const parsed = parseKit(text);
      return parsed.ok ? [parsed.value] : [];
    });
  }

  /** Takes in an own kit at once and keeps it, unless it is no kit. */
  async save(kit: Kit): Promise<Result<Kit, KitProblem>> {
    const checked = checkKit(kit);
    if (!checked.ok) return bad({ code: 'NO_KIT', message: checked.errors[0]!.message });
    this.#own = [...this.#own.filter(({ title }) => title !== kit.title), kit];
    const put = await this.#store.put({ id: kit.title, title: kit.title, text: writeKit(kit) });
    if (put.ok) return good(kit);
    return bad({ code: 'ONLY_IN_MEMORY', message: put.errors[0]!.message });
  }

  async remove(kit: Kit): Promise<void> {
    await this.#store.remove(kit.title);
    this.#own = this.#own.filter(({ title }) => title !== kit.title);
  }
}
