import { describe, expect, it } from 'vitest';
import { extraStrokes } from '../../../src/coach/faults/extras';
import type { Stroke } from '../../../src/kit/stroke';
import { judged, PARTIAL_MS } from '../practice-take';
import { perfectTake, strokeOn } from './perfect-take';

/** 320 notes, of which 5 % are 16. */
const { dues, strokes, evidenceIn } = perfectTake(16);
const found = (extras: readonly Stroke[]) =>
  extraStrokes(
    evidenceIn(
      judged(
        dues,
        [...strokes, ...extras].sort((a, b) => a.timeUs - b.timeUs),
      ),
    ),
  );
const texts = (extras: readonly Stroke[]) => found(extras).map(({ text }) => text);

const at = (...positions: readonly number[]) =>
  dues.flatMap(({ note }, i) =>
    note.limb === 'L' && positions.includes(note.position) ? [i] : [],
  );
/** A stroke so long after each of these, of a share of its velocity. */
const followed = (notes: readonly number[], ms = 40, share = 0.5, voice?: Stroke['voice']) =>
  notes.map((i) => {
    const { timeUs, velocity, voice: own } = strokes[i]!;
    return strokeOn(voice ?? own, timeUs + Math.round(ms * 1000), Math.round(share * velocity));
  });
/** Strokes that no phrase of ours has, half a partial behind the beat of so many bars, and then behind the next beat. */
const strays = (count: number, voice: Stroke['voice'] = 'crash', beat = 0) =>
  Array.from({ length: count }, (_, i) =>
    strokeOn(
      voice,
      Math.round(1000 * PARTIAL_MS * (16 * (i % 16) + 4 * (beat + Math.floor(i / 16)) + 0.5)),
      90,
    ),
  );

describe('strokes that answer no note', () => {
  it.each([
    ['at once, softer, on the same pad', followed(at(2, 10)), 'bounce'],
    ['15 ms after', followed(at(2, 10), 15), 'bounce'],
    ['sooner than 15 ms after', followed(at(2, 10), 14.999), 'extra'],
    ['130 ms after', followed(at(2, 10), 130), 'bounce'],
    ['later than 130 ms after', followed(at(2, 10), 130.001), 'extra'],
    ['as loud', followed(at(2, 10), 40, 1), 'extra'],
    ['on another pad', followed(at(2, 10), 40, 0.5, 'cowbell'), 'extra'],
  ] as const)('%s', (_, extras, what) => {
    const on = extras[0]!.voice;
    expect(texts(extras)[0]).toMatch(
      what === 'bounce'
        ? /^Bounces, .*: \d+ of \d+ strokes\.$/
        : `32 extra strokes, most on ${on}.`,
    );
  });

  it('say where in the cycle or the beat most of them are', () => {
    const details = (extras: readonly Stroke[]) => found(extras).map(({ detail }) => detail);
    // Half a partial behind the beat, as near to it as to the second sixteenth: the earlier one.
    expect(details(strays(64))).toEqual(['Most of them beside strokes on the beat.']);
    // Of the position before it is 140 ms, of this one 16.
    expect(details([...followed(at(2), 140), ...strays(4)])).toEqual([
      'Most of them beside position 3.',
    ]);
    // Of 46 strokes 30 are beside one note: position 3 has most of the notes, and not most of the strokes.
    const besideOne = Array.from({ length: 30 }, (_, i) =>
      strokeOn('crash', strokes[0]!.timeUs + 1000 * (i + 1), 90),
    );
    expect(details([...followed(at(2), 140), ...besideOne])).toEqual([undefined]);
    const everywhere = Array.from({ length: 64 }, (_, i) =>
      strokeOn('crash', Math.round(1000 * PARTIAL_MS * (4 * i + (i % 4) + 0.5)), 90),
    );
    expect(details(everywhere)).toEqual([undefined]);
  });

  it('come anywhere where unisons and rests make some places look oftener struck', () => {
    const beside = (grouping: string, subdivision: number, times: readonly number[]) => {
      const file = { title: 'Ebb', meter: '4/4', tempoBpm: 60, subdivision, grouping };
      const layers = [{ name: 'Sticking' }];
      const take = perfectTake(16, 1, { ...file, layers });
      const extras = times.map((at) => strokeOn('crash', Math.round((at * 1e6) / subdivision), 90));
      const all = [...take.strokes, ...extras].sort((a, b) => a.timeUs - b.timeUs);
      const [told] = extraStrokes(take.evidenceIn(judged(take.dues, all)));
      return told!.detail;
    };
    // Every eighth of every other bar has one, and two off-beats one more: a unison is one place to be beside.
    const eighths = Array.from({ length: 128 }, (_, i) => i + 0.1);
    const halfOf = eighths.filter((_, i) => i % 16 < 8 || i === 9 || i === 11);
    expect(halfOf).toHaveLength(66);
    expect(beside('R+K R R+L R', 2, halfOf)).toBeUndefined();
    // Four in five of the time are nearer to the beat than to what else is played.
    const anyTime = Array.from({ length: 40 }, (_, i) => 6.3 * i + 0.5);
    expect(beside('R - - - L - - - R - - - L - R K', 4, anyTime)).toBeUndefined();
  });

  it('on the same pad in another voice, as with another opening of the hi-hat, are no bounces', () => {
    const turned = followed(at(2, 10)).map((one): Stroke => ({ ...one, voice: 'side stick' }));
    expect(texts(turned)).toEqual(['32 extra strokes, most on side stick.']);
  });

  it('in the same voice on another pad are no bounces, as from the other of two snare drums', () => {
    const beside = followed(at(2, 10)).map((one): Stroke => ({ ...one, pad: 99 }));
    expect(texts(beside)).toEqual(['32 extra strokes, most on snare.']);
  });

  it('are counted of what was played: a missed note bounces nothing', () => {
    const missed = new Set(at(2).slice(0, 8));
    const played = strokes.filter((_, i) => !missed.has(i));
    const bounced = followed(at(2).slice(8));
    const all = [...played, ...bounced].sort((a, b) => a.timeUs - b.timeUs);
    const [told] = extraStrokes(evidenceIn(judged(dues, all)));
    expect(told!.text).toBe('Bounces, position 2: 8 of 8 strokes.');
  });

  it('are bounces where one position has them all, and are told with the notes they follow', () => {
    const [bounces, ...others] = found(followed(at(2)));
    expect(others).toEqual([]);
    expect(bounces!.code).toBe('bounces');
    expect(bounces!.weight).toBeCloseTo(16 / (16 + 320), 12);
    expect(bounces!.facts).toEqual({ name: 'position 2', times: 16, of: 16 });
    expect(bounces!.notes).toEqual(at(2).map((i) => dues[i]!));
  });

  it('are bounces where more than 60 % look so, and the others are told beside them from 5 % on', () => {
    const bounced = followed(at(2, 10).slice(0, 24));
    expect(texts([...bounced, ...strays(16)])).toEqual(['40 extra strokes, most on snare.']);
    expect(texts([...bounced, ...strays(15)])[0]).toBe(
      'Bounces, second sixteenths: 24 of 64 strokes.',
    );
    const more = followed(at(2, 4, 6));
    expect(texts([...more, ...strays(16)]).filter((text) => /extra/.test(text))).toEqual([]);
    expect(texts([...more, ...strays(17)]).filter((text) => /extra/.test(text))).toEqual([
      '17 extra strokes, most on crash.',
    ]);
  });

  it('are told from 5 % of the strokes on where they bounce anywhere', () => {
    // Every nineteenth of twenty a cycle: each position once.
    const anywhere = dues.flatMap((_, i) => (i % 19 === 0 ? [i] : []));
    expect(anywhere).toHaveLength(17);
    expect(texts(followed(anywhere))).toEqual(['Bounces: 17 of 320 strokes.']);
    expect(texts(followed(anywhere.slice(1)))).toEqual([]);
  });

  it('are told from 5 % of the notes on, and name the voice of more than half of them', () => {
    expect(texts(strays(16))).toEqual([]);
    expect(texts(strays(17))).toEqual(['17 extra strokes, most on crash.']);
    expect(texts([...strays(10), ...strays(10, 'cowbell', 2)])).toEqual(['20 extra strokes.']);
    expect(texts([...strays(10), ...strays(11, 'cowbell', 2)])).toEqual([
      '21 extra strokes, most on cowbell.',
    ]);
    const [extras] = found(strays(20));
    expect(extras).toMatchObject({ code: 'extras', notes: [], facts: { times: 20 } });
    expect(extras!.weight).toBeCloseTo(20 / 340, 12);
  });
});
