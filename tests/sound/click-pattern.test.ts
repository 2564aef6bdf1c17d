import { describe, expect, it } from 'vitest';
import { clickPattern, type BeatMark, type ClickChoice } from '../../src/sound/click-pattern';
import { parseMeter } from '../../src/time/meter';

const BEAT_US = 500_000;

/** Beats of so many bars with one bar of count-in before them. */
function marksOf(meter: string, bars: number): BeatMark[] {
  const beatsPerBar = parseMeter(meter)!.beatsPerBar;
  return Array.from({ length: (bars + 1) * beatsPerBar }, (_, n) => ({
    timeUs: (n - beatsPerBar) * BEAT_US,
    beat: (n % beatsPerBar) + 1,
  }));
}

/** One letter a beat from the count-in on: B bar, b beat, C cycle, capitals joined by +, . silence. */
function drawn(choice: ClickChoice, meter: string, bars: number, cycleBeats = 0): string {
  const marks = marksOf(meter, bars);
  const cycles: number[] = [];
  if (cycleBeats > 0)
    for (let us = 0; us <= marks.at(-1)!.timeUs; us += cycleBeats * BEAT_US) cycles.push(us);
  const clicks = clickPattern(choice, marks, cycles);
  const letter = { bar: 'B', beat: 'b', cycle: 'C' };
  return marks
    .map(({ timeUs }) => {
      const here = clicks.filter((click) => click.timeUs === timeUs);
      return here.map(({ sound }) => letter[sound]).join('+') || '.';
    })
    .join(' ');
}

// Worked by hand from what the words mean (common practice, no source).
describe('the click', () => {
  it.each<[string, ClickChoice['beats'], string]>([
    ['4/4', 'all', 'B b b b B b b b B b b b'],
    ['4/4', '2 and 4', 'B b b b . b . b . b . b'],
    ['4/4', 'first of the bar', 'B b b b B . . . B . . .'],
    ['4/4', 'none', 'B b b b . . . . . . . .'],
    ['3/4', '2 and 4', 'B b b . b . . b .'],
    ['6/8', 'all', 'B b B b B b'],
    ['6/8', '2 and 4', 'B b . b . b'],
    ['12/8', '2 and 4', 'B b b b . b . b . b . b'],
    ['7/8', 'all', 'B b b b b b b B b b b b b b B b b b b b b'],
    ['7/8', '2 and 4', 'B b b b b b b . b . b . b . . b . b . b .'],
    ['7/8', 'first of the bar', 'B b b b b b b B . . . . . . B . . . . . .'],
  ])('in %s on %s, count-in first', (meter, beats, expected) => {
    expect(drawn({ follows: 'meter', beats }, meter, 2)).toBe(expected);
  });

  it.each<[ClickChoice['follows'], ClickChoice['beats'], string]>([
    ['cycle', 'all', 'B b b b C . . . . C . . . . C .'],
    ['cycle', 'none', 'B b b b C . . . . C . . . . C .'],
    ['both', 'all', 'B b b b B+C b b b B b+C b b B b b+C b'],
    ['both', '2 and 4', 'B b b b C b . b . b+C . b . b C b'],
    ['both', 'none', 'B b b b C . . . . C . . . . C .'],
    ['meter', 'all', 'B b b b B b b b B b b b B b b b'],
  ])('follows %s with beats %s over a cycle of five beats in 4/4', (follows, beats, expected) => {
    expect(drawn({ follows, beats }, '4/4', 3, 5)).toBe(expected);
  });

  it('puts cycle starts between beats where they fall: five sixteenths in 4/4', () => {
    const sixteenthUs = BEAT_US / 4;
    const starts = [0, 5, 10, 15].map((n) => n * sixteenthUs);
    const clicks = clickPattern({ follows: 'both', beats: 'all' }, marksOf('4/4', 1), starts);
    expect(clicks.filter(({ timeUs }) => timeUs >= 0)).toEqual([
      { timeUs: 0, sound: 'bar' },
      { timeUs: 0, sound: 'cycle' },
      { timeUs: 500_000, sound: 'beat' },
      { timeUs: 625_000, sound: 'cycle' },
      { timeUs: 1_000_000, sound: 'beat' },
      { timeUs: 1_250_000, sound: 'cycle' },
      { timeUs: 1_500_000, sound: 'beat' },
      { timeUs: 1_875_000, sound: 'cycle' },
    ]);
  });
});

it('counts in again in mid-take, every beat and no cycle, whatever is chosen', () => {
  const marks = [0, 1, 2, 3].map((n) => ({
    timeUs: n * BEAT_US,
    beat: 1 + (n % 2),
    isCountIn: n > 1,
  }));
  const choice = { follows: 'both', beats: 'none' } as const;
  expect(
    clickPattern(choice, marks, [0]).map(({ timeUs, sound }) => [timeUs / BEAT_US, sound]),
  ).toEqual([
    [0, 'cycle'],
    [2, 'bar'],
    [3, 'beat'],
  ]);
});
