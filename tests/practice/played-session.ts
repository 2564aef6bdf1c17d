import { LEVELS } from '../../src/phrase/model/level';
import { VOICES } from '../../src/phrase/model/voice';
import { PracticeSession } from '../../src/practice/session.svelte';
import { SettingsStore } from '../../src/store/settings-store';
import type { Player } from '../../src/take/player';
import type { Take } from '../../src/take/take';
import type { StoredTakeSummary } from '../../src/take/take-summary';
import { layeredPhrase, phraseFile } from '../phrase/phrase-of';
import { handPage, NO_JOURNAL } from './hand-page';

/** A cycle is a bar of eight eighths: 2 s at 120. */
export const phrase = layeredPhrase(
  { title: 'Tow Line', meter: '4/4', tempoBpm: 120, subdivision: 2, grouping: 'R L R L R L R K' },
  [{ where: { positions: [1] }, set: { level: 'accent' } }],
  [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }],
);
const NOTES: Readonly<Record<string, number>> = { snare: 38, 'bass drum': 36 };
const VELOCITIES = { ghost: 30, tap: 70, accent: 110 };

/** A session on a page whose time a test turns, and somebody who plays what the lane asks. */
export function playedSession(player: Player = 'kit') {
  const hand = handPage();
  const inputs = { ...hand.dependencies.inputs, player };
  const takes: Take[] = [];
  const summaries: StoredTakeSummary[] = [];
  const session = new PracticeSession({
    ...hand.dependencies,
    inputs,
    takes: {
      async add(take, figures) {
        const summary = { ...figures, id: `${takes.push(take)}` };
        summaries.unshift(summary);
        return { summary, problem: undefined };
      },
    },
    journal: NO_JOURNAL,
    settings: new SettingsStore(null),
  });
  session.choosePhrase({
    id: 'tow-line',
    text: JSON.stringify(phraseFile(phrase)),
    phrase,
    own: true,
  });
  let played = 0;
  /** Plays to a time of the take, but for the notes that are left out. */
  const playTo = (
    untilUs: number,
    leavesOut: (cycle: number, position: number) => boolean = () => false,
    laterMs: (cycle: number) => number = () => 0,
  ) => {
    const waitTo = (us: number) => hand.passTo(hand.page.nowMs + (us - session.nowUs()) / 1000);
    for (; session.lane!.noteTimeUs[played]! <= untilUs; played++) {
      waitTo(session.lane!.noteTimeUs[played]!);
      const { noteCycle, notePosition, noteVoice, noteLevel } = session.lane!;
      if (leavesOut(noteCycle[played]!, notePosition[played]!)) continue;
      const velocity = VELOCITIES[LEVELS[noteLevel[played]!]!];
      const lateMs = laterMs(noteCycle[played]!);
      hand.send(hand.page.nowMs + lateMs, 0x99, NOTES[VOICES[noteVoice[played]!]!]!, velocity);
    }
    waitTo(untilUs);
  };
  const start = async () => {
    played = 0;
    await session.start();
  };
  return { session, hand, inputs, takes, summaries, playTo, start };
}
