import { EDGE_AND_RIM, GENERAL_MIDI, isBuiltIn } from '../../kit/built-in-kits';
import type { Kit } from '../../kit/kit';
import { checkKit, parseKit, writeKit } from '../../kit/parse-kit';
import { bad, good, type Result } from '../../time/result';
import type { OwnTextStore } from '../../store/own-text-store';
import { another, freeTitle } from '../../phrase/model/free-title';

/** Why a kit is not kept: it is none, its name is that of a kit that comes with the app, or it goes with the page. */
export interface KitProblem {
  readonly code: 'NO_KIT' | 'NAME_TAKEN' | 'ONLY_IN_MEMORY';
  readonly message: string;
}

/** A kit with the name of its record. */
interface OwnKit {
  readonly id: string;
  readonly kit: Kit;
}

/** What `EDGE_AND_RIM` was called before; choices name it so. */
const FORMER_TITLE = 'Edge and rim zones';

/** The kits that come with the app, and the player's own, which are kept. No two of them have one title. */
export class OwnKits {
  readonly #store: Pick<OwnTextStore, 'put' | 'list' | 'remove' | 'setAside'>;
  #own: readonly OwnKit[] = $state.raw([]);

  constructor(store: Pick<OwnTextStore, 'put' | 'list' | 'remove' | 'setAside'>) {
    this.#store = store;
  }

  get all(): readonly Kit[] {
    return [EDGE_AND_RIM, GENERAL_MIDI, ...this.#own.map(({ kit }) => kit)];
  }

  /** The kit of that title, which may be one of before; General MIDI where there is none. */
  called(title: string): Kit {
    const now = title === FORMER_TITLE ? EDGE_AND_RIM.title : title;
    return this.all.find((kit) => kit.title === now) ?? GENERAL_MIDI;
  }

  /** Reads them; of two of one title the second is given another. */
  async load(): Promise<void> {
    const { texts } = await this.#store.list();
    this.#own = [];
    for (const record of texts) {
      const { id } = record;
      const parsed = parseKit(record.text);
      if (!parsed.ok) {
        this.#store.setAside(record);
        continue;
      }
      const title = this.#freeTitle(parsed.value.title);
      this.#own = [...this.#own, { id, kit: { ...parsed.value, title } }];
    }
  }

  /**
   * Takes in an own kit at once and keeps it, in place of an own one of that title; under another title where another tab
   * has changed that one.
   */
  async save(kit: Kit): Promise<Result<Kit, KitProblem>> {
    const checked = checkKit(kit);
    if (!checked.ok) return bad({ code: 'NO_KIT', message: checked.errors[0]!.message });
    if (isBuiltIn(kit.title)) {
      const message = `"${kit.title}" is the name of a kit that comes with the app; give yours another.`;
      return bad({ code: 'NAME_TAKEN', message });
    }
    const id = this.#idOf(kit.title) ?? kit.title;
    this.#own = [...this.#own.filter((own) => own.id !== id), { id, kit }];
    const put = await this.#store.put({ id, title: kit.title, text: writeKit(kit) });
    if (put.ok) return good(kit);
    if (put.errors[0]!.code === 'CHANGED') {
      await this.load();
      return this.save({ ...kit, title: this.#freeTitle(kit.title) });
    }
    return bad({ code: 'ONLY_IN_MEMORY', message: put.errors[0]!.message });
  }

  async remove({ title }: Kit): Promise<void> {
    const id = this.#idOf(title);
    if (id === undefined) return;
    await this.#store.remove(id);
    this.#own = this.#own.filter((own) => own.id !== id);
  }

  #freeTitle(title: string): string {
    return freeTitle(
      title,
      another,
      this.all.map((kit) => kit.title),
    );
  }

  #idOf(title: string): string | undefined {
    return this.#own.find(({ kit }) => kit.title === title)?.id;
  }
}
