import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UndoHistory } from '../../../src/practice/compose/undo-history.svelte';

const history = (first: string) => new UndoHistory<string>(first, (a, b) => a === b);

describe('the undo history', () => {
  it('has nothing to take back or to bring back at the start', () => {
    const words = history('a');
    expect([words.canUndo, words.canRedo]).toEqual([false, false]);
    expect([words.undo(), words.redo(), words.now]).toEqual([false, false, 'a']);
  });

  it('forgets what was taken back once something else is done', () => {
    const words = history('a');
    words.step('b');
    words.undo();
    words.step('c');
    expect(words.canRedo).toBe(false);
    words.undo();
    expect(words.now).toBe('a');
  });

  it('takes letters typed into one field back as one', () => {
    const words = history('');
    for (const text of ['t', 'ti', 'tide']) words.step(text, 'title');
    words.undo();
    expect(words.now).toBe('');
    words.redo();
    expect(words.now).toBe('tide');
  });

  it.each<[string, (words: UndoHistory<string>) => void]>([
    ['another field comes between', (words) => words.step('x', 'tempo')],
    ['a step of no field comes between', (words) => words.step('x')],
    ['the field is left', (words) => words.settle()],
    ['another state takes the place of this one', (words) => words.replace('x')],
  ])('joins no letters when %s', (_, between) => {
    const words = history('');
    words.step('t', 'title');
    between(words);
    const before = words.now;
    words.step('ti', 'title');
    words.undo();
    expect(words.now).toBe(before);
  });

  it('has no step where letters lead back to where they began', () => {
    const words = history('tide');
    words.step('tid', 'title');
    words.step('tide', 'title');
    expect([words.canUndo, words.now]).toEqual([false, 'tide']);
    // What is typed next is a step of its own.
    words.step('tides', 'title');
    words.undo();
    expect(words.now).toBe('tide');
  });

  it('keeps a step of no field that changes nothing', () => {
    const words = history('a');
    words.step('a');
    expect(words.canUndo).toBe(true);
  });

  it('replaces a state without a step, and leaves what was taken back', () => {
    const words = history('a');
    words.step('b');
    words.undo();
    words.replace('z');
    expect([words.now, words.canUndo, words.canRedo]).toEqual(['z', false, true]);
  });

  it('lawUndoRedo: all the way back and forth again gives every state in turn', () => {
    fc.assert(
      fc.property(fc.array(fc.string(), { minLength: 1, maxLength: 20 }), ([first, ...others]) => {
        const words = history(first!);
        for (const text of others) words.step(text);
        for (const text of [first!, ...others].slice(0, -1).toReversed()) {
          expect(words.undo()).toBe(true);
          expect(words.now).toBe(text);
        }
        expect(words.undo()).toBe(false);
        for (const text of others) {
          expect(words.redo()).toBe(true);
          expect(words.now).toBe(text);
        }
        expect(words.redo()).toBe(false);
      }),
    );
  });
});
