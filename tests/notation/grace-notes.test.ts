import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { LiveTake } from '../../src/live/live-take';
import { plainTimeline } from '../../src/live/live-timeline';
import { acrossBar } from '../../src/notation/across-bar';
import { positionColumns } from '../../src/notation/position-columns';
import { scoreContent } from '../../src/notation/score-columns';
import { expand } from '../../src/phrase/layers/expand';
import { LIMBS } from '../../src/phrase/model/limb';
import type { Phrase } from '../../src/phrase/model/phrase';
import { layeredPhrase, phraseOf } from '../phrase/phrase-of';

const stickingOf = (notes: readonly { readonly sticking: string }[]): string =>
  notes.map(({ sticking }) => sticking).join('+') || '-';

const onScoreLine = (phrase: Phrase): string =>
  scoreContent(phrase, phrase.layers.length)
    .columns.map(({ notes }) => stickingOf(notes))
    .join(' ');

const acrossTheBar = (phrase: Phrase): string =>
  acrossBar(phrase, phrase.layers.length)
    .partials(0, phrase.cycle)
    .map(({ strokes }) => stickingOf(strokes))
    .join(' ');

const inTheTable = (phrase: Phrase): string =>
  positionColumns(phrase, phrase.layers.length)
    .map(({ notes }) => stickingOf(notes))
    .join(' ');

/** The lane's main notes of the first cycle, in its own columns, each after the grace notes that name it. */
function onLane(phrase: Phrase): string {
  const take = new LiveTake(plainTimeline(phrase, phrase.layers.length, 90), GENERAL_MIDI);
  take.timeline.extendTo(0);
  take.sync();
  const letter = (note: number) => LIMBS[take.noteLimb[note]!]!;
  const columns = Array.from({ length: phrase.cycle }, (): string[] => []);
  for (let main = 0; main < take.noteCount; main++) {
    if (take.noteMain[main] !== main || take.noteCycle[main] !== 1) continue;
    const graces = Array.from({ length: take.noteCount }, (_, note) => note)
      .filter((note) => note !== main && take.noteMain[note] === main)
      .map((note) => letter(note).toLowerCase());
    columns[take.notePosition[main]! - 1]!.push(graces.join('') + letter(main));
  }
  return columns.map((notes) => notes.join('+') || '-').join(' ');
}

const WAYS = { onScoreLine, acrossTheBar, inTheTable, onLane };

// Each expectation is the grouping as it is written: a layer that moves a grace note to another voice, limb or level
// leaves it a grace of the same main note.
describe.each(Object.entries(WAYS))('a grace note %s stays with its main note', (_, written) => {
  it('on another voice', () => {
    const phrase = layeredPhrase({ grouping: 'lR L R L' }, [
      { where: { grace: true }, set: { voice: 'floor tom' } },
    ]);
    expect(written(phrase)).toBe('lR L R L');
  });

  it('played by the hand of the main note', () => {
    const phrase = layeredPhrase({ grouping: 'lR L R L' }, [
      { where: { grace: true }, set: { limb: 'R' } },
    ]);
    expect(written(phrase)).toBe('rR L R L');
  });

  it('at another level', () => {
    const phrase = layeredPhrase({ grouping: 'R rL' }, [
      { where: { grace: true }, set: { level: 'accent' } },
    ]);
    expect(written(phrase)).toBe('R rL');
  });

  it('when two notes sound together', () => {
    expect(written(phraseOf({ grouping: 'llR+K L+F' }))).toBe('llR+K L+F');
  });

  it('when both hands sound together, each with its own', () => {
    const phrase = layeredPhrase(
      { grouping: 'lR+L R' },
      [{ where: { positions: [1], limb: 'L' }, set: { voice: 'floor tom', grace: 'drag' } }],
      [{ where: { grace: true, limb: 'L' }, set: { voice: 'floor tom' } }],
    );
    expect(written(phrase)).toBe('lR+rrL R');
  });

  it('as one of a drag', () => {
    const phrase = layeredPhrase({ grouping: 'R llR K' }, [
      { where: { grace: true }, set: { voice: 'high tom' } },
    ]);
    expect(written(phrase)).toBe('R llR K');
  });

  it('on a swung partial', () => {
    const phrase = layeredPhrase({ grouping: 'R lR', subdivision: 2 }, [
      { swing: '2:1' },
      { where: { grace: true }, set: { voice: 'hi-hat closed' } },
    ]);
    expect(written(phrase)).toBe('R lR');
  });
});

describe('the target', () => {
  it('says of each grace note which limb plays the main note of its onset', () => {
    const phrase = layeredPhrase({ grouping: 'llR+K L' }, [
      { where: { grace: true }, set: { voice: 'floor tom' } },
    ]);
    expect(
      expand(phrase, 2, { cycles: 1 }).map(({ limb, graceOf, voice }) => [limb, graceOf, voice]),
    ).toEqual([
      ['L', 'R', 'floor tom'],
      ['L', 'R', 'floor tom'],
      ['R', undefined, 'snare'],
      ['K', undefined, 'bass drum'],
      ['L', undefined, 'snare'],
    ]);
  });
});

describe('the lane', () => {
  it('places the grace note of a pickup and of every cycle by its own main note', () => {
    const phrase = layeredPhrase(
      { grouping: 'lR L R' },
      [{ where: { grace: true }, set: { voice: 'floor tom' } }],
      [{ pickup: [{ limb: 'L', partialsBefore: 1 }] }],
    );
    const take = new LiveTake(plainTimeline(phrase, 3, 200), GENERAL_MIDI);
    take.timeline.extendTo(1_000_000);
    take.sync();
    const graces = Array.from({ length: take.noteCount }, (_, i) => i).filter(
      (i) => take.noteMain[i] !== i,
    );
    expect(graces.length).toBeGreaterThan(3);
    // At 200 a sixteenth is 75 ms: every third has a main note with a grace note.
    expect(graces.map((i) => Math.round(take.noteTimeUs[take.noteMain[i]!]! / 75_000) % 3)).toEqual(
      graces.map(() => 0),
    );
  });
});
