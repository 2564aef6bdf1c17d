import { describe, expect, it } from 'vitest';
import { openTake } from '../../src/live/open-take';
import type { ExerciseChoice } from '../../src/phrase/exercise/exercise';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { targetKey } from '../../src/phrase/layers/target-key';
import { ChoicesShape, FIRST_CHOICES } from '../../src/practice/choices';
import { exerciseChoices } from '../../src/practice/exercise-choices';
import { layerProgress, progressOf } from '../../src/take/progress';
import { parseTake, writeTake } from '../../src/take/take-json';
import { layeredPhrase } from '../phrase/phrase-of';
import { playerRig } from './player-rig';

/** Eighths at 120: a partial is 250 ms, a cycle is a bar of 2 s. */
const phrase = layeredPhrase(
  { title: 'Tow Line', meter: '4/4', tempoBpm: 120, subdivision: 2, grouping: 'R L R L R L R K' },
  [{ where: { positions: [1] }, set: { level: 'accent' } }],
);
const BAR_US = 2_000_000;

async function rig(exercise: ExerciseChoice, layer = 1) {
  const parts = playerRig(phrase);
  const { session } = parts;
  await session.fetchTools();
  session.choose({ layer });
  session.choose(exerciseChoices(session.choices, exercise));
  return parts;
}

/** Voices that the app queued from a time of the take on, with their bar. */
const voicesFrom = ({ hand }: Awaited<ReturnType<typeof rig>>, us: number) =>
  hand.output.sounds.flatMap(({ event, cancelled }) =>
    event.kind === 'voice' && !cancelled && event.timeUs >= us ? [event] : [],
  );

describe('an excerpt', () => {
  const EXCERPT: ExerciseChoice = { excerpt: { from: 4, to: 7 } };

  it('is a loop with a lane, a layer and a file of its own', async () => {
    const { session } = await rig(EXCERPT);
    expect(session.target).toMatchObject({ isExercise: true, layer: 1, problem: undefined });
    expect(session.phrase!.title).toBe('Tow Line, bar 1, 3 to 4 &');
    expect(session.phrase!.meterText).toBe('3/4');
    expect([...session.lane!.noteTimeUs.slice(0, 6)].map((us) => us / 250_000)).toEqual([
      0, 1, 2, 3, 6, 7,
    ]);
    const again = parsePhrase(session.target!.text);
    expect(again.ok && targetKey(again.value, 1)).toBe(targetKey(session.phrase!, 1));
  });

  it('passes itself and not the layer it is from, and its take says the same when it is judged again', async () => {
    const { session, takes, summaries, playTo, start } = await rig(EXCERPT);
    await start();
    playTo(30 * BAR_US);
    expect(session.justPassed).toBe(1);
    const own = session.phrase!;
    await session.stop();
    const progress = progressOf(summaries);
    expect(layerProgress(progress, own)[0]!.bestBpm).toBe(120);
    expect(
      layerProgress(progress, phrase).map(({ isPlayed, bestBpm }) => [isPlayed, bestBpm]),
    ).toEqual([
      [false, undefined],
      [false, undefined],
    ]);
    const read = parseTake(writeTake(takes[0]!));
    if (!read.ok) throw new Error(read.errors[0]!.message);
    const opened = openTake(read.value)!;
    expect(opened.plan.phrase.title).toBe('Tow Line, bar 1, 3 to 4 &');
    expect(opened.judgement.notes.length).toBe(summaries[0]!.notes);
    expect(opened.judgement.notes.every(({ verdict }) => verdict === 'in time')).toBe(true);
  });

  it('of any layer follows a tempo plan', async () => {
    const { session, start, playTo } = await rig(EXCERPT, 2);
    const tempoPlan = { ...FIRST_CHOICES.tempoPlan, shape: 'list' as const, list: [120, 126] };
    session.choose({ tempoPlan });
    await start();
    playTo(30 * BAR_US);
    expect(session.plan?.state).toMatchObject({ step: 1 });
    expect(session.choices).toMatchObject({ layer: 2, tempoBpm: 126 });
    await session.stop();
  });

  it('is left in one step, for the layer and the tempo from before', async () => {
    const { session, start, playTo } = await rig(EXCERPT, 2);
    session.choose({ tempoBpm: 90 });
    await start();
    playTo(2 * BAR_US);
    await session.stop();
    session.choose(exerciseChoices(session.choices, undefined));
    expect(session.target).toMatchObject({ isExercise: false, layer: 2 });
    expect(session.choices.tempoBpm).toBe(120);
    expect(session.stats).toBeUndefined();
    expect(session.lane!.noteTimeUs[4]! / 250_000).toBe(4);
  });

  it('that is empty leaves the whole layer, and says why', async () => {
    const { session } = await rig({ excerpt: { from: -4, to: -1 } });
    expect(session.target).toMatchObject({
      isExercise: false,
      problem: 'Nothing is played here; mark some notes.',
    });
  });

  it('is not changed while a take runs', async () => {
    const { session, start } = await rig(EXCERPT);
    await start();
    const { phrase: before } = session;
    session.choose(exerciseChoices(session.choices, undefined));
    session.choose({ leadingHand: 'changed' });
    expect(session.phrase).toBe(before);
    await session.stop();
  });

  it('is kept with the choices, and gone with another phrase', async () => {
    const { session, settings } = await rig(EXCERPT);
    const kept = () => settings.read('practice', ChoicesShape, FIRST_CHOICES).exercise;
    expect(kept()).toEqual({ excerpt: { from: 4, to: 7 }, wholeBpm: 120 });
    session.choosePhrase({ id: 'other', text: '', phrase, own: true });
    expect(kept()).toBeUndefined();
    expect(session.target!.isExercise).toBe(false);
  });
});

describe('a part', () => {
  it('is asked for alone while the app plays the rest', async () => {
    const parts = await rig({ part: { limb: 'K' } });
    const { session, playTo, start } = parts;
    await start();
    playTo(2 * BAR_US);
    expect(session.lane!.noteCount).toBeGreaterThan(1);
    expect(session.lane!.rows).toHaveLength(2);
    const snare = voicesFrom(parts, 0).filter(({ timeUs }) => timeUs < BAR_US);
    expect(snare.map(({ voice, timeUs }) => [voice, timeUs / 250_000])).toEqual(
      [0, 1, 2, 3, 4, 5, 6].map((partial) => ['snare', partial]),
    );
    expect(session.stats?.extras ?? 0).toBe(0);
    await session.stop();
  });

  it('is alone where the rest is to rest', async () => {
    const parts = await rig({ part: { limb: 'K' }, isRestHeard: false });
    await parts.start();
    parts.playTo(BAR_US);
    expect(voicesFrom(parts, -BAR_US)).toEqual([]);
    await parts.session.stop();
  });

  it('moves what the app plays with the tempo', async () => {
    const parts = await rig({ part: { limb: 'K' } });
    const { session, playTo, start } = parts;
    await start();
    playTo(100_000);
    session.choose({ tempoBpm: 60 });
    playTo(3 * BAR_US);
    const later = voicesFrom(parts, BAR_US).filter(({ timeUs }) => timeUs < 2 * BAR_US);
    expect(later.map(({ timeUs }) => timeUs / 500_000)).toEqual([4, 5, 6, 7]);
    await session.stop();
  });
});

describe('hear and answer', () => {
  it('asks for nothing in the turns that are heard, and judges the answers alone', async () => {
    const parts = await rig({ answerCycles: 2 });
    const { session, summaries, playTo, start } = parts;
    await start();
    playTo(2 * BAR_US - 100_000);
    expect(session.stats?.extras ?? 0).toBe(0);
    expect(session.stats?.gate.passed ?? false).toBe(false);
    playTo(9 * BAR_US);
    const lane = session.lane!;
    const due = [...lane.noteTimeUs.slice(0, lane.noteCount)].map((us) => Math.floor(us / BAR_US));
    expect([...new Set(due)].slice(0, 4)).toEqual([2, 3, 6, 7]);
    const bars = voicesFrom(parts, 0).map(({ timeUs }) => Math.floor(timeUs / BAR_US));
    expect([...new Set(bars)].slice(0, 4)).toEqual([0, 1, 4, 5]);
    await session.stop();
    expect(summaries[0]).toMatchObject({ notes: 32, asWritten: 1, passed: false });
  });

  it('is passed by answers, and is another target than the layer', async () => {
    const { session, summaries, playTo, start } = await rig({ answerCycles: 1 });
    await start();
    playTo(20 * BAR_US);
    expect(session.justPassed).toBe(1);
    await session.stop();
    expect(layerProgress(progressOf(summaries), phrase)[0]!.bestBpm).toBeUndefined();
  });

  it('stopped in the first turn keeps no take', async () => {
    const { session, takes, playTo, start } = await rig({ answerCycles: 2 });
    await start();
    playTo(BAR_US);
    await session.stop();
    expect(takes).toEqual([]);
    expect(session.status).toBe('idle');
  });
});

describe('the leading hand', () => {
  it('changes lane, take and progress, whatever is practised', async () => {
    const { session, takes, playTo, start } = await rig({ excerpt: { from: 0, to: 3 } });
    session.choose({ leadingHand: 'changed' });
    expect([...session.lane!.noteLimb.slice(0, 4)]).toEqual([1, 0, 1, 0]);
    expect(session.target!.chosen.groupingText).toBe('L R L R L R L K');
    await start();
    playTo(2 * BAR_US);
    await session.stop();
    const kept = parsePhrase(takes[0]!.phraseText);
    expect(kept.ok && kept.value.groupingText.startsWith('L R')).toBe(true);
    session.choose({ leadingHand: 'as written' });
    expect(session.target!.chosen).toBe(phrase);
  });
});
