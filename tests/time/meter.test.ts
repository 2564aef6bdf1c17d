import { describe, expect, it } from 'vitest';
import { beats } from '../../src/time/beats';
import { parseMeter } from '../../src/time/meter';

describe('parseMeter', () => {
  // Which meters are felt in dotted beats: common practice, no source.
  it.each([
    ['4/4', 4, '1'],
    ['3/4', 3, '1'],
    ['6/4', 6, '1'],
    ['1/4', 1, '1'],
    ['3/8', 3, '1/2'],
    ['5/8', 5, '1/2'],
    ['7/8', 7, '1/2'],
    ['6/8', 2, '3/2'],
    ['9/8', 3, '3/2'],
    ['12/8', 4, '3/2'],
    ['7/16', 7, '1/4'],
    ['6/16', 2, '3/4'],
  ])('%s has %i beats of %s quarters', (text, beatsPerBar, quarters) => {
    const meter = parseMeter(text);
    expect(meter?.beatsPerBar).toBe(beatsPerBar);
    expect(meter?.quartersPerBeat.toFraction()).toBe(quarters);
  });

  it('a bar is as long as its figures say: count quarters, eighths or sixteenths', () => {
    for (const unit of [4, 8, 16])
      for (let count = 1; count <= 32; count++) {
        const meter = parseMeter(`${count}/${unit}`)!;
        expect(meter.quartersPerBeat.mul(meter.beatsPerBar).equals(beats(count * 4, unit))).toBe(
          true,
        );
      }
  });

  it.each(['', '4', '0/4', '33/4', '4/2', '4/32', '04/4', '4/4 ', ' 4/4', '14/', '-3/4', '4.5/4'])(
    'refuses %j',
    (text) => {
      expect(parseMeter(text)).toBeUndefined();
    },
  );
});
