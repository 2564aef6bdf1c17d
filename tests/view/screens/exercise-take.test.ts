import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { exerciseOf } from '../../../src/phrase/exercise/exercise';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import type { Take } from '../../../src/take/take';
import { summaryOf } from '../../../src/practice/takes/take-scoring';
import { mountShell } from '../mount-shell';
import { simulatedTake } from '../sample-takes';
import type { StubParts } from '../stub-parts';

const LAYER = 5;
const choice = { part: { limb: 'L' } } as const;

/** A minute of the last layer, the left hand so late. */
const wholeTake = ({ session }: StubParts, day: number, leftMs: number): Take =>
  simulatedTake(
    session.entry!,
    `2026-11-${day}T18:20:00.000Z`,
    { spreadMs: 5 },
    { endUs: 60_000_000, lateMs: ({ note }) => (note.limb === 'L' ? leftMs : 0) },
  );

/** The left hand of it alone. */
function exerciseTake({ session }: StubParts, day: number, tempoBpm?: number): Take {
  const entry = session.entry!;
  const made = exerciseOf(entry.phrase, LAYER, choice);
  if (!made.ok) throw new Error(made.errors[0]!.message);
  const phrase = { ...made.value.phrase, ...(tempoBpm !== undefined && { tempoBpm }) };
  const own = { ...entry, phrase, text: writePhrase(phrase) };
  const exercise = { phrase: entry.text, layer: LAYER, choice, wholeBpm: 88 };
  return { ...simulatedTake(own, `2026-11-${day}T18:20:00.000Z`, { spreadMs: 5 }), exercise };
}

async function openLast(takesOf: (parts: StubParts) => readonly Take[]) {
  let id = '';
  const parts = await mountShell('#log', async (parts) => {
    for (const take of takesOf(parts))
      id = (await parts.store.add(take, summaryOf(take)!)).summary.id;
  });
  location.hash = `#log/${id}`;
  await expect.element(page.getByTestId('finding').first()).toBeVisible();
  return parts;
}

describe('what has changed since a finding was practised', () => {
  it('is told on the page of the next take, with a way to the one before', async () => {
    const parts = await openLast((parts) => [
      wholeTake(parts, 20, 18),
      exerciseTake(parts, 21),
      wholeTake(parts, 22, 4),
    ]);
    await expect
      .element(page.getByTestId('since'))
      .toHaveTextContent(/^Left hand [2-6] ms (late|behind the rest), was 1[678]\./);
    await page.getByRole('link', { name: 'The take before the exercise' }).click();
    const before = parts.takes.summaries.at(-1)!;
    await expect.poll(() => location.hash).toBe(`#log/${before.id}`);
    await expect.element(page.getByTestId('since')).not.toBeInTheDocument();
  });

  it.each([
    [
      'nothing was practised in between',
      (parts: StubParts) => [wholeTake(parts, 20, 18), wholeTake(parts, 22, 4)],
    ],
    [
      'the take before is the simulated player’s',
      (parts: StubParts): Take[] => [
        { ...wholeTake(parts, 20, 18), player: 'simulated player' },
        exerciseTake(parts, 21),
        wholeTake(parts, 22, 4),
      ],
    ],
  ])('is not told where %s', async (_, takesOf) => {
    await openLast(takesOf);
    await expect.element(page.getByTestId('figures')).toBeVisible();
    await expect.element(page.getByTestId('since')).not.toBeInTheDocument();
  });
});

describe('the page of an exercise', () => {
  it('has what the app played beside it', async () => {
    await openLast((parts) => [exerciseTake(parts, 21)]);
    await page.getByText('What was written and played').click();
    await expect
      .element(page.getByTestId('lane-accompaniment'))
      .toHaveTextContent('What the app plays');
  });

  it('offers it again, slower, and the whole layer', async () => {
    const { session } = await openLast((parts) => [exerciseTake(parts, 21)]);
    const button = (name: string) => page.getByRole('button', { name, exact: true });
    await button('Slower, at 66').click();
    await expect.poll(() => location.hash).toBe('#practise');
    expect(session.choices).toMatchObject({
      layer: LAYER,
      tempoBpm: 66,
      exercise: { ...choice, wholeBpm: 88 },
    });
    history.back();
    await expect.element(button('Again at 88')).toBeVisible();
    button('Again at 88').element().focus();
    await userEvent.keyboard('{Enter}');
    await expect
      .poll(() => session.choices)
      .toMatchObject({ tempoBpm: 88, exercise: { wholeBpm: 88 } });
    await expect.poll(() => location.hash).toBe('#practise');
    history.back();
    await button('Whole layer at 88').click();
    expect(session.choices).toMatchObject({ layer: LAYER, tempoBpm: 88 });
    expect(session.choices.exercise).toBeUndefined();
  });

  it.each([
    [36, true],
    [30, false],
  ])('offers it no slower than it can be practised: at %i', async (tempoBpm, isOffered) => {
    await openLast((parts) => [exerciseTake(parts, 21, tempoBpm)]);
    const slower = page.getByRole('button', { name: 'Slower, at 30', exact: true });
    await expect.element(slower).toHaveProperty('disabled', !isOffered);
  });

  it('has no such steps for a take of a layer', async () => {
    await openLast((parts) => [wholeTake(parts, 20, 18)]);
    await expect.element(page.getByTestId('figures')).toBeVisible();
    await expect.element(page.getByTestId('exercise-steps')).not.toBeInTheDocument();
  });
});

describe('a take in which the place was lost', () => {
  it('shows its notes where they were played, and on the click again', async () => {
    const lostPlace = { afterCycles: 3, slipMs: 60_000 / 88 / 4 };
    await openLast(({ session }) => [
      simulatedTake(
        session.entry!,
        '2026-11-20T18:20:00.000Z',
        { spreadMs: 5, lostPlace },
        { endUs: 40_000_000 },
      ),
    ]);
    await page.getByText('What was written and played').click();
    const inTime = () =>
      page.getByTestId('lane-table').element().querySelectorAll('[data-verdict="in time"]').length;
    const onClick = inTime();
    await page.getByText('where they were played').click();
    await expect
      .element(page.getByTestId('followed'))
      .toHaveTextContent(/one sixteenth late from bar \d+ on\. The rulers are the click's\./);
    expect(inTime()).toBeGreaterThan(onClick + 20);
    await page.getByText('on the click').click();
    await expect.poll(inTime).toBe(onClick);
  });

  it('does not ask where the notes are to stand in any other take', async () => {
    await openLast((parts) => [wholeTake(parts, 20, 0)]);
    await expect.element(page.getByText('The notes stand')).not.toBeInTheDocument();
  });
});
