import fc from 'fast-check';

/** Notes and strokes as plain rows: what the matcher sees. */
export interface Train {
  readonly notes: readonly { timeUs: number; voice: number; reachUs: number }[];
  readonly strokes: readonly { timeUs: number; voice: number; velocity: number }[];
}

const voices = fc.integer({ min: 0, max: 3 });

/** Small whole times on a coarse grid, so that ties are everywhere. */
export const tiedTrain: fc.Arbitrary<Train> = fc
  .record({
    reachUs: fc.constantFrom(2, 4, 6, 10),
    notes: fc.array(fc.tuple(fc.integer({ min: 0, max: 12 }), voices), { maxLength: 6 }),
    strokes: fc.array(fc.tuple(fc.integer({ min: -3, max: 15 }), voices), { maxLength: 6 }),
  })
  .map(({ reachUs, notes, strokes }) => rows(reachUs, notes, strokes));

/** Playing as it is: a steady grid over a few voices with jitter, misses, extras, wrong voices. */
export const playedTrain: fc.Arbitrary<Train> = fc
  .record({
    partialUs: fc.integer({ min: 30_000, max: 200_000 }),
    spreadUs: fc.integer({ min: 0, max: 90_000 }),
    steps: fc.array(
      fc.record({
        voices: fc.uniqueArray(voices, { maxLength: 3 }),
        jitter: fc.double({ min: -1, max: 1, noNaN: true }),
        fault: fc.constantFrom('none', 'none', 'none', 'missed', 'wrong', 'extra', 'double'),
        other: voices,
      }),
      { maxLength: 40 },
    ),
  })
  .map(({ partialUs, spreadUs, steps }) => {
    const notes: [number, number][] = [];
    const strokes: [number, number][] = [];
    steps.forEach((step, k) => {
      step.voices.forEach((voice, v) => {
        const due = k * partialUs;
        notes.push([due, voice]);
        const at = due + Math.round(step.jitter * spreadUs) + v * 700;
        if (step.fault !== 'missed')
          strokes.push([at, step.fault === 'wrong' ? step.other : voice]);
        if (step.fault === 'extra') strokes.push([at + Math.round(partialUs / 2), step.other]);
        if (step.fault === 'double') strokes.push([at + 9_000, voice]);
      });
    });
    return rows(Math.min(100_000, partialUs), notes, strokes);
  });

/** The same, from some note on with another reach, as after a change of tempo. */
export const changingTrain: fc.Arbitrary<Train> = fc
  .record({
    train: playedTrain,
    from: fc.nat({ max: 40 }),
    otherUs: fc.integer({ min: 20_000, max: 100_000 }),
  })
  .map(({ train, from, otherUs }) => ({
    ...train,
    notes: train.notes.map((note, i) => (i < from ? note : { ...note, reachUs: otherUs })),
  }));

/** Strokes exactly on the edges of a note's window and tolerance, and one microsecond beyond. */
export const edgeTrain: fc.Arbitrary<Train> = fc
  .record({
    partialUs: fc.integer({ min: 30_000, max: 200_000 }),
    steps: fc.array(
      fc.record({
        voice: voices,
        edge: fc.constantFrom(0, 1, 2, 3),
        beyondUs: fc.constantFrom(-1, 0, 1),
        side: fc.constantFrom(-1, 1),
        other: fc.option(voices, { freq: 3 }),
      }),
      { maxLength: 20 },
    ),
  })
  .map(({ partialUs, steps }) => {
    const reachUs = Math.min(100_000, partialUs);
    const edges = [0, Math.floor(reachUs / 3), Math.floor(reachUs / 2), reachUs];
    return rows(
      reachUs,
      steps.map(({ voice }, k): [number, number] => [k * partialUs, voice]),
      steps.map(({ voice, other, edge, beyondUs, side }, k): [number, number] => [
        k * partialUs + side * (edges[edge]! + beyondUs),
        other ?? voice,
      ]),
    );
  });

/** In time order; at most two notes are alike, as when both hands have the snare at once. */
function rows(
  reachUs: number,
  notes: readonly (readonly [number, number])[],
  strokes: readonly (readonly [number, number])[],
): Train {
  const byTime = (a: { timeUs: number; voice: number }, b: { timeUs: number; voice: number }) =>
    a.timeUs - b.timeUs || a.voice - b.voice;
  const twoHands = notes.filter(
    ([timeUs, voice], i) =>
      notes.slice(0, i).filter((note) => note[0] === timeUs && note[1] === voice).length < 2,
  );
  return {
    notes: twoHands.map(([timeUs, voice]) => ({ timeUs, voice, reachUs })).sort(byTime),
    strokes: strokes
      .map(([timeUs, voice], j) => ({ timeUs, voice, velocity: 20 + ((j * 37) % 100) }))
      .sort(byTime),
  };
}

/** Columns of the rows, as the matcher takes them. */
export const columns = (train: Train) => ({
  notes: {
    timeUs: Float64Array.from(train.notes, (note) => note.timeUs),
    voice: Uint8Array.from(train.notes, (note) => note.voice),
    reachUs: Float64Array.from(train.notes, (note) => note.reachUs),
  },
  strokes: {
    timeUs: Float64Array.from(train.strokes, (stroke) => stroke.timeUs),
    voice: Uint8Array.from(train.strokes, (stroke) => stroke.voice),
    velocity: Uint8Array.from(train.strokes, (stroke) => stroke.velocity),
  },
});

/** Cost of a matching in whole numbers, reach standing for 1, straight from the rule; Infinity if it breaks a rule. */
export function totalCost(
  train: Train,
  strokeOfNote: ArrayLike<number>,
  unit = train.notes[0]?.reachUs ?? 1,
): number {
  let cost = 0;
  const used = new Set<number>();
  train.notes.forEach((note, i) => {
    const j = strokeOfNote[i]!;
    if (j < 0) {
      cost += note.reachUs;
      return;
    }
    const stroke = train.strokes[j]!;
    if (used.has(j)) cost = Infinity;
    used.add(j);
    cost += pairCost(note, stroke);
  });
  return cost + (train.strokes.length - used.size) * unit;
}

export const pairCost = (
  note: { timeUs: number; voice: number; reachUs: number },
  stroke: { timeUs: number; voice: number },
): number =>
  2 * Math.abs(stroke.timeUs - note.timeUs) + (note.voice === stroke.voice ? 0 : note.reachUs);
