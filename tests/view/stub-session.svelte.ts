import type { SessionParts } from '../../src/view/app-context';
import { FIRST_CHOICES, type Choices } from '../../src/practice/choices';
import type { LaneFeed } from '../../src/live/lane-feed';
import type { Player } from '../../src/take/player';
import { practiceTarget } from '../../src/practice/practice-target';
import type { LibraryPhrase } from '../../src/practice/library.svelte';
import type { LiveStats } from '../../src/live/live-stats';
import type { PassedTarget } from '../../src/practice/passes.svelte';
import type { LostPlace } from '../../src/practice/place-help.svelte';
import type { PlanInHand } from '../../src/practice/tempo-planning.svelte';
import type { SessionStatus } from '../../src/practice/session.svelte';
import type { Upcoming } from '../../src/live/upcoming';
import type { StoredTakeSummary } from '../../src/take/take-summary';
import { ferryFeed } from './demo-feed';

/** A session whose state a test sets, and that plays nothing. */
export class StubSession implements SessionParts {
  #choices = $state.raw<Choices>({ ...FIRST_CHOICES, tempoBpm: 96 });
  entry = $state.raw<LibraryPhrase>();
  status = $state<SessionStatus>('idle');
  stats = $state.raw<LiveStats>();
  passed = $state.raw<readonly PassedTarget[]>([]);
  justPassed = $state.raw<number>();
  playedBy = $state.raw<Player>('kit');
  version = $state(0);
  upcoming = $state.raw<readonly Upcoming[]>([]);
  plan = $state.raw<PlanInHand>();
  placeHelp = $state.raw<LostPlace>();
  problem = $state<string>();
  notices = $state.raw<readonly string[]>([]);
  lane = $state.raw<LaneFeed | undefined>(ferryFeed());
  lastTake = $state.raw<StoredTakeSummary>();
  /** Where the playhead stands. */
  placeUs = 3_400_000;

  get target() {
    return this.entry && practiceTarget(this.entry, this.#choices);
  }
  get phrase() {
    return this.target?.phrase;
  }
  get layer() {
    return this.target?.layer ?? this.#choices.layer;
  }
  get choices(): Choices {
    return { ...this.#choices, phraseId: this.entry?.id ?? '' };
  }

  nowUs = () => this.placeUs;
  choosePhrase(entry: LibraryPhrase) {
    this.entry = entry;
  }
  choose(some: Partial<Choices>) {
    this.#choices = { ...this.#choices, ...some };
  }
  async start() {
    this.status = 'playing';
  }
  async fetchTools() {}
  tryAgain() {}
  takeBack() {}
  leaveOutBar(): number | undefined {
    return 12;
  }
  flush() {}
  async stop() {
    this.status = 'idle';
  }
}
