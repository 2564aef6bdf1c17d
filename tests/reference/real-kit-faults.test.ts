import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { createFaultWatch } from '../../src/kit/faults/fault-watch';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { readMidiFile } from '../../src/take/read-midi-file';

/**
 * Ten performances of professional drummers on an electronic kit in working order: Groove MIDI Dataset,
 * Gillick et al. 2019, CC BY 4.0 (shared/takes/README.md). On two of them a fifth to a half of a pad's
 * strokes are at 127: 42 of 135 and 17 of 37 in take-02, 35 of 186 in take-03, counted with the
 * midi-file library [C].
 */
const FOLDER = 'shared/takes/';
const SATURATED = new Map([
  ['take-02.mid', [38, 36]],
  ['take-03.mid', [38]],
]);

describe('the fault watch over real playing', () => {
  it.each(readdirSync(FOLDER).filter((name) => name.endsWith('.mid')))(
    '%s: no fault but pads whose gain is too high',
    (name) => {
      const file = readMidiFile(readFileSync(FOLDER + name));
      if (!file.ok) throw new Error(file.errors[0]!.message);
      const watch = createFaultWatch(EDGE_AND_RIM);
      const decoder = new KitDecoder(EDGE_AND_RIM);
      for (const { timeUs, status, data1, data2 } of file.value.messages)
        watch.receive(decoder.read(timeUs, status, data1, data2));
      const found = watch.report();
      expect(new Set(found.map(({ fault }) => fault)).size).toBe(SATURATED.has(name) ? 1 : 0);
      expect(found.map(({ pad }) => pad)).toEqual(SATURATED.get(name) ?? []);
    },
  );
});
