import * as v from 'valibot';
import { LEVELS } from '../../phrase/model/level';
import { LIMBS } from '../../phrase/model/limb';
import { parsePhrase } from '../../phrase/file/parse-phrase';
import type { Phrase } from '../../phrase/model/phrase';
import { VOICES } from '../../phrase/model/voice';
import { writePhrase } from '../../phrase/file/write-phrase';
import type { SettingsStore } from '../../store/settings-store';
import type { Proposing } from './proposing.svelte';
import { TWIST_KINDS } from '../../phrase/vary/twist-settings';
import type { Varying } from './varying.svelte';

/** How far the varying of a phrase has come. */
export interface LeftOff
  extends
    Pick<Varying, 'bpm' | 'kind' | 'settings' | 'steps'>,
    Pick<Proposing, 'seed' | 'limits'> {}

const SETTING = 'variations left off';
/** So many phrases are remembered. Chosen. */
const MOST = 12;

const limb = v.picklist(LIMBS);
const voice = v.picklist(VOICES);
const number = v.number();
const StateShape = v.object({
  bpm: number,
  kind: v.picklist(TWIST_KINDS),
  settings: v.object({
    rotateBy: number,
    displaceBy: number,
    subdivision: number,
    cycle: number,
    voices: v.tuple([voice, voice]),
    keep: number,
    keepLimb: v.optional(limb),
    limb,
    voice,
    level: v.optional(v.picklist(LEVELS)),
    withId: v.optional(v.string()),
  }),
  steps: v.array(
    v.object({ text: v.string(), sentence: v.string(), distance: number, difficulty: number }),
  ),
  seed: number,
  limits: v.object({
    limbs: v.array(limb),
    voices: v.array(voice),
    highestDifficulty: v.optional(number),
    leastDistance: v.optional(number),
    mostDistance: v.optional(number),
  }),
});
const Shape = v.array(v.object({ id: v.string(), original: v.string(), state: v.unknown() }));

/** Where the varying of each phrase was left off, over a reload and other screens. */
export class VariationsLeftOff {
  readonly #settings: Pick<SettingsStore, 'read' | 'write'>;

  constructor(settings: Pick<SettingsStore, 'read' | 'write'>) {
    this.#settings = settings;
  }

  /** Undefined when the phrase has not been varied, was written anew since, or what is kept cannot be read. */
  read(id: string, phrase: Phrase): LeftOff | undefined {
    const kept = this.#all.find((one) => one.id === id);
    const found = v.safeParse(StateShape, kept?.state);
    if (kept?.original !== writePhrase(phrase) || !found.success) return undefined;
    const steps = found.output.steps.map(({ text, ...told }) => {
      const parsed = parsePhrase(text);
      return parsed.ok ? { ...told, phrase: parsed.value } : undefined;
    });
    const whole = steps.filter((step) => step !== undefined);
    return whole.length === steps.length ? { ...found.output, steps: whole } : undefined;
  }

  write(id: string, phrase: Phrase, { steps, ...state }: LeftOff): void {
    const texts = steps.map(({ phrase: taken, ...told }) => ({
      ...told,
      text: writePhrase(taken),
    }));
    const others = this.#all.filter((one) => one.id !== id);
    const now = { id, original: writePhrase(phrase), state: { ...state, steps: texts } };
    this.#settings.write(SETTING, [now, ...others].slice(0, MOST));
  }

  get #all(): v.InferOutput<typeof Shape> {
    return this.#settings.read(SETTING, Shape, []);
  }
}
