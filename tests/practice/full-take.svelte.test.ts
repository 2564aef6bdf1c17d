import { expect, it } from 'vitest';
import { TAKE_FULL } from '../../src/practice/takes/take-room';
import { parseTake, writeTake } from '../../src/take/take-json';
import { phrase, playedSession } from './played-session';

const BAR_US = 2_000_000;

it('a take in which nothing is struck for hours ends by itself, is kept, and opens as a file', async () => {
  const { session, hand, takes, playTo, start } = playedSession();
  await start();
  playTo(2 * BAR_US);
  const strokes = session.lane!.strokeCount;
  expect(strokes).toBeGreaterThan(0);
  // In front of an hour the click goes on, in front of a day it has stopped.
  hand.freezeTo(hand.page.nowMs + 3600e3 / 4);
  hand.page.tick!();
  expect([session.status, session.problem]).toEqual(['playing', undefined]);
  hand.freezeTo(hand.page.nowMs + 12 * 3600e3);
  hand.send(hand.page.nowMs, 0x99, 38, 70);
  hand.page.tick!();
  await expect.poll(() => takes.length).toBe(1);
  expect([session.status, session.problem]).toEqual(['idle', TAKE_FULL]);
  expect(takes[0]!.messages).toHaveLength(strokes);
  expect(parseTake(writeTake(takes[0]!))).toEqual({ ok: true, value: takes[0] });
  expect(takes[0]!.phraseText).toContain(phrase.title);

  await start();
  expect([session.status, session.problem]).toEqual(['counting in', undefined]);
  await session.stop();
});
