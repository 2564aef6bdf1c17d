import * as v from 'valibot';
import type { Kit } from '../../kit/kit';
import type { StruckKit } from '../../kit/learn/struck-kit';
import { VOICES, type Voice } from '../../phrase/model/voice';
import type { SettingsStore } from '../../store/settings-store';
import type { Rigs } from '../calibration/rigs.svelte';
import type { Inputs } from '../inputs/inputs.svelte';
import type { KitProblem } from '../inputs/own-kits.svelte';
import type { Result } from '../../time/result';

/** What stands between opening the app and playing, in its order. */
export const FIRST_STEPS = ['kit', 'pads', 'levels', 'offset', 'play'] as const;
export type FirstStep = (typeof FIRST_STEPS)[number];
export type StepState = 'done' | 'skipped' | 'open';

const voices = v.array(v.picklist(VOICES));
const FirstStartShape = v.object({
  done: v.array(v.picklist(FIRST_STEPS)),
  leftOut: v.array(v.picklist(FIRST_STEPS)),
  /** By the kit's title: voices whose pads were struck, and those it has none for. */
  pads: v.record(v.string(), v.object({ has: voices, lacks: voices })),
});
type Kept = v.InferOutput<typeof FirstStartShape>;

const SETTING = 'first-start';
const NOTHING_YET: Kept = { done: [], leftOut: [], pads: {} };

export interface FirstStartDependencies {
  readonly settings: Pick<SettingsStore, 'read' | 'write'>;
  readonly inputs: Pick<Inputs, 'kit' | 'saveKit' | 'mapNote'>;
  readonly rigs: Pick<Rigs, 'profile'>;
}

/** How far somebody has come from opening the app to playing on their own kit. */
export class FirstStart {
  readonly #dependencies;
  #kept: Kept = $state.raw(NOTHING_YET);

  constructor(dependencies: FirstStartDependencies) {
    this.#dependencies = dependencies;
    this.#kept = dependencies.settings.read(SETTING, FirstStartShape, NOTHING_YET);
  }

  /** What is there counts, whoever put it there: levels and offset are made on other screens too. */
  stateOf(step: FirstStep): StepState {
    const { inputs, rigs } = this.#dependencies;
    const { done, leftOut } = this.#kept;
    const isDone =
      step === 'levels'
        ? inputs.kit.pads.some(({ ghostMax }) => ghostMax !== undefined)
        : step === 'offset'
          ? rigs.profile !== undefined
          : done.includes(step);
    return isDone ? 'done' : leftOut.includes(step) ? 'skipped' : 'open';
  }

  finish(step: FirstStep): void {
    const { done, leftOut } = this.#kept;
    this.#keep({
      done: joined(done, [step]),
      leftOut: leftOut.filter((other) => other !== step),
    });
  }

  leaveOut(...steps: readonly FirstStep[]): void {
    this.#keep({ leftOut: joined(this.#kept.leftOut, steps) });
  }

  /** What striking has told of the kit that is in use now. */
  rememberPads({ has, lacks }: Pick<StruckKit, 'has' | 'lacks'>): void {
    const { title } = this.#dependencies.inputs.kit;
    const before = this.#padsNow;
    const without = (old: readonly Voice[] = [], gone: readonly Voice[]) =>
      old.filter((voice) => !gone.includes(voice));
    this.#keep({
      pads: {
        ...this.#kept.pads,
        [title]: {
          has: joined(without(before?.has, lacks), has),
          lacks: joined(without(before?.lacks, has), lacks),
        },
      },
    });
  }

  /** Keeps a kit that goes on from the one in use: what striking has told of that one holds for it too. */
  saveKit(kit: Kit): Promise<Result<Kit, KitProblem>> {
    return this.#goOn((inputs) => inputs.saveKit(kit));
  }

  /** The same for a note that is given a voice; where pads were struck, it is one of them. */
  async mapNote(note: number, voice: Voice): Promise<Result<Kit, KitProblem>> {
    const mapped = await this.#goOn((inputs) => inputs.mapNote(note, voice));
    if (this.#padsNow) this.rememberPads({ has: [voice], lacks: [] });
    return mapped;
  }

  async #goOn(
    save: (inputs: FirstStartDependencies['inputs']) => Promise<Result<Kit, KitProblem>>,
  ) {
    const { inputs } = this.#dependencies;
    const { title } = inputs.kit;
    const saved = await save(inputs);
    this.#copyPads(title);
    return saved;
  }

  #copyPads(title: string): void {
    const { pads } = this.#kept;
    const copy = this.#dependencies.inputs.kit.title;
    if (pads[title] && !pads[copy]) this.#keep({ pads: { ...pads, [copy]: pads[title] } });
  }

  /** Of these voices, those whose pads were struck on the kit in use. */
  struck(wanted: readonly Voice[]): readonly Voice[] {
    const { has = [] } = this.#padsNow ?? {};
    return wanted.filter((voice) => has.includes(voice));
  }

  /** Of these voices, those that come up for the first time on a kit of which others were struck. */
  firstNeeded(wanted: readonly Voice[]): readonly Voice[] {
    return this.#padsNow ? this.notAsked(wanted) : [];
  }

  /** Of these voices, those that nobody has asked the kit in use for. */
  notAsked(wanted: readonly Voice[]): readonly Voice[] {
    const { has = [], lacks = [] } = this.#padsNow ?? {};
    return wanted.filter((voice) => !has.includes(voice) && !lacks.includes(voice));
  }

  /** Of these voices, those that the kit in use has no pad for. */
  lacking(wanted: readonly Voice[]): readonly Voice[] {
    const { lacks = [] } = this.#padsNow ?? {};
    return wanted.filter((voice) => lacks.includes(voice));
  }

  get #padsNow(): Kept['pads'][string] | undefined {
    return this.#kept.pads[this.#dependencies.inputs.kit.title];
  }

  #keep(some: Partial<Kept>): void {
    this.#kept = { ...this.#kept, ...some };
    this.#dependencies.settings.write(SETTING, this.#kept);
  }
}

/** Each once. */
const joined = <T>(some: readonly T[], more: readonly T[]): T[] => [
  ...some,
  ...more.filter((one) => !some.includes(one)),
];
