import { placeWords } from '../../phrase/model/place-words';
import { another, freeTitle } from '../../phrase/model/free-title';
import type { Phrase } from '../../phrase/model/phrase';
import type { RestoreChoice } from '../../store/backup/restore';
import type { RestorePlan } from '../../store/backup/restore-plan';
import type { Take } from '../../take/take';
import type { Kit } from '../../kit/kit';
import type { Compositions } from '../compose/compositions.svelte';
import type { Inputs } from '../inputs/inputs.svelte';
import type { Backups } from '../keeping/backups';
import type { Library } from '../library.svelte';
import { Notices } from '../notices.svelte';
import {
  openFile,
  phraseInMidi,
  type FileProblem,
  type MidiInFile,
  type OpenedFile,
} from './opened-file';
import { titlesIn, type PhraseAnswer, type PhraseBeside } from './phrase-beside';
import { phrasesTakenIn, type PhraseOutcome } from './outcome-words';
import { RAW_DEFLATE } from './raw-deflate';

export interface FileOpeningParts {
  readonly library: Pick<Library, 'phrases' | 'unfinished' | 'add'>;
  readonly compositions: Pick<Compositions, 'replace'>;
  readonly inputs: Pick<Inputs, 'saveKit' | 'chooseKit'>;
  readonly backups: Pick<Backups, 'open' | 'putBack' | 'bringIn'>;
}

/** Problems named at most: the first ones say what kind of file it is. Chosen. */
const MOST_PROBLEMS = 5;

/**
 * The one place where files and links are opened. What is in one is shown before anything is kept; what was kept is told
 * wherever the player goes then.
 */
export class FileOpening {
  readonly #parts: FileOpeningParts;
  readonly #notices = new Notices();
  #name = $state('');
  #content: OpenedFile | undefined = $state.raw();
  #problems: readonly string[] = $state.raw([]);
  #isBusy = $state(false);
  #isPutBack = $state(false);
  /** What was opened last counts. */
  #turn = 0;

  constructor(parts: FileOpeningParts) {
    this.#parts = parts;
  }

  /** What is opened is called. */
  get name(): string {
    return this.#name;
  }
  get content(): OpenedFile | undefined {
    return this.#content;
  }
  /** Why it cannot be opened, or what was in it not be kept, a sentence each. */
  get problems(): readonly string[] {
    return this.#problems;
  }
  get isBusy(): boolean {
    return this.#isBusy;
  }
  /** Whether a backup was just put back. */
  get isPutBack(): boolean {
    return this.#isPutBack;
  }
  /** What was just kept. */
  get notices(): readonly string[] {
    return this.#notices.current;
  }

  async open(file: File): Promise<void> {
    this.close();
    const turn = this.#turn;
    this.#name = file.name;
    this.#isBusy = true;
    const { backups } = this.#parts;
    const opened = await openFile(file, { backups, packing: RAW_DEFLATE });
    if (turn !== this.#turn) return;
    this.#isBusy = false;
    if (opened.ok) this.#content = opened.value;
    else this.#tellProblems(opened.errors);
  }

  /** Opens a link, or the text of a file. */
  async openText(text: string, name: string): Promise<void> {
    await this.open(new File([text], name, { type: 'text/plain' }));
  }

  /** Shows the phrase that is written in a MIDI file in its place, or tells why there is none. */
  async readPhrase(midi: MidiInFile): Promise<void> {
    const turn = this.#turn;
    const read = await phraseInMidi(midi);
    if (turn !== this.#turn) return;
    this.#problems = [];
    if (read.ok) this.#content = read.value;
    else this.#tellProblems(read.errors);
  }

  /** Shows nothing any more; nothing was kept. */
  close(): void {
    this.#turn++;
    this.#content = undefined;
    this.#problems = [];
    this.#isBusy = this.#isPutBack = false;
    this.#name = '';
  }

  tell(sentence: string): void {
    this.#notices.tell(sentence);
  }

  /**
   * Keeps phrases as it is answered, one answer each.
   *
   * @returns the ids of those that are here now, also where they were before
   */
  async keepPhrases(
    phrases: readonly PhraseBeside[],
    answers: readonly PhraseAnswer[],
  ): Promise<readonly string[]> {
    const outcomes: PhraseOutcome[] = [];
    for (const [i, one] of phrases.entries())
      outcomes.push(await this.#takeIn(one, answers[i] ?? 'leave'));
    this.#done(phrasesTakenIn(outcomes));
    return outcomes.flatMap(({ id }) => id ?? []);
  }

  /** Takes a take into the log. @returns its id there; undefined where a problem is told */
  async keepTake(take: Take): Promise<string | undefined> {
    const taken = await this.#parts.backups.bringIn(take);
    if (!taken.ok) {
      this.#notKept(taken.errors);
      return undefined;
    }
    const { id, isNew, problem } = taken.value;
    const words = isNew ? 'The take is in the log now.' : 'This take is in the log already.';
    this.#done(problem ? `${words} ${problem.message}` : words);
    return id;
  }

  /** Keeps a kit, which is played by from now on. @returns whether it is; else a problem is told */
  async keepKit(kit: Kit): Promise<boolean> {
    const saved = await this.#parts.inputs.saveKit(kit);
    if (saved.ok) this.#done(`${saved.value.title} is kept and chosen.`);
    else if (saved.errors[0]!.code === 'ONLY_IN_MEMORY')
      this.#done(`${kit.title} is chosen. ${saved.errors[0]!.message}`);
    else this.#notKept(saved.errors);
    return this.#problems.length === 0;
  }

  /** Plays by a kit that is here already. */
  chooseKit(kit: Kit): void {
    this.#parts.inputs.chooseKit(kit);
    this.#done(`${kit.title} is chosen.`);
  }

  /** Puts a backup back, or tells why nothing of it was. */
  async putBack(plan: RestorePlan, choice: RestoreChoice): Promise<void> {
    this.#isBusy = true;
    const written = await this.#parts.backups.putBack(plan, choice);
    this.close();
    this.#isPutBack = written.ok;
    if (!written.ok) this.#problems = [`Nothing was put back. ${written.errors[0]!.message}`];
  }

  async #takeIn(one: PhraseBeside, answer: PhraseAnswer): Promise<PhraseOutcome> {
    const { phrase, here } = one;
    const { title } = phrase;
    if (here?.as === 'same') return { title, how: 'here', id: here.id };
    if (answer === 'leave') return { title, how: 'left' };
    if (answer === 'replace' && here?.as === 'own') {
      const { id, problem } = await this.#parts.compositions.replace(here.id, phrase);
      return { title, how: 'replaced', id, problem };
    }
    const free = freeTitle(title, another, titlesIn(this.#parts.library));
    const { id, problem } = await this.#add({ ...phrase, title: free });
    return { title: free, how: 'kept', id, problem };
  }

  async #add(phrase: Phrase): Promise<{ id: string; problem: string | undefined }> {
    const { id, problem } = await this.#parts.library.add(phrase);
    return { id, problem: problem?.message };
  }

  #done(sentence: string): void {
    this.close();
    this.tell(sentence);
  }

  #notKept(problems: readonly FileProblem[]): void {
    this.#tellProblems(problems);
    this.#content = undefined;
  }

  #tellProblems(problems: readonly FileProblem[]): void {
    const name = this.#name;
    this.#problems = problems.slice(0, MOST_PROBLEMS).map(({ place = '', message }) => {
      const where = place === '' ? name : `${name}, ${placeWords(place)}`;
      return `${where}: ${message}`;
    });
  }
}
