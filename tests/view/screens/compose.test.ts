import { describe, expect, it } from 'vitest';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { changeWords } from '../../../src/phrase/model/change-words';
import { BEGINNINGS, whatIsUnused } from '../../../src/view/screens/compose/change/next-change';
import { page, userEvent } from 'vitest/browser';
import { phraseOf } from '../../phrase/phrase-of';
import { mountShell } from '../mount-shell';
import {
  button,
  cells,
  faults,
  field,
  layers,
  names,
  press,
  row,
  sevens,
  told,
  write,
} from './composer';

describe('writing a phrase', () => {
  it('begins with something that sounds, and is kept with the first change', async () => {
    const { library } = await mountShell('#compose');
    const variations = page.getByRole('main').getByRole('link', { name: 'Variations' });
    const keptState = () => told('kept-state').element().textContent.trim();
    await expect.element(button('Hear layer 1, New phrase')).toBeEnabled();
    const before = keptState();
    expect(before).not.toBe('');
    expect([library.phrases.filter(({ own }) => own), variations.elements()]).toEqual([[], []]);
    await write('Title', 'Seven Piles');
    await expect.element(variations).toBeVisible();
    expect(keptState()).not.toBe(before);
    expect(keptState()).not.toBe('');
    await expect
      .poll(() => library.phrases.filter(({ own }) => own).map(({ phrase }) => phrase.title))
      .toEqual(['Seven Piles']);
    await expect.poll(() => location.hash).toMatch(/^#compose\/own-/);
  });

  it('says beside the field what is wrong, and shows the phrase as it was last right', async () => {
    await sevens();
    await write('Grouping', 'R L R R L L Q');
    await expect.element(field('Grouping')).toHaveAttribute('aria-invalid', 'true');
    await expect.element(told('last-right')).toBeVisible();
    expect(cells('sticking')).toEqual(['R', 'L', 'R', 'R', 'L', 'L', 'K']);
    await expect.element(told('kept-state')).toHaveTextContent('unfinished');
    await write('Grouping', 'R L R R L L F');
    expect(cells('sticking')).toEqual(['R', 'L', 'R', 'R', 'L', 'L', 'F']);
    expect(faults()).toEqual([]);
  });

  it('sets strokes that were run together apart once the field is left, as one step with typing them', async () => {
    await sevens();
    await field('Title').click();
    await field('Grouping').click();
    await press('{Control>}a{/Control}RLLRLL rlrl');
    await expect.element(field('Grouping')).toHaveAttribute('aria-invalid', 'true');
    expect(faults()).toEqual([expect.stringMatching(/"RLLRLL".* R L L R L L\b/)]);
    await press('{Tab}');
    await expect.element(field('Grouping')).toHaveValue('R L L R L L R L R L');
    expect(faults()).toEqual([]);
    await press('{Control>}z{/Control}');
    await expect.element(field('Grouping')).toHaveValue('R L R R L L K');
  });

  it('takes a grouping that was played', async () => {
    const { inputs } = await sevens();
    inputs.choosePlayer('kit');
    await page.getByText('Play the grouping').first().click();
    await told('grouping-listen').click();
    const fromMs = performance.now();
    [38, 38, 36].forEach((note, i) => inputs.listener!(fromMs + i * 400, 0x99, note, 80));
    await told('grouping-listen').click();
    await told('grouping-take').click();
    await expect.element(field('Grouping')).toHaveValue('R L K');
    await expect.element(field('Grouping')).toHaveFocus();
    expect(cells('sticking')).toEqual(['R', 'L', 'K']);
  });

  it('refuses what is no number where it is typed', async () => {
    await sevens();
    await write('Tempo, bpm', '');
    await expect.element(field('Tempo, bpm')).toHaveAttribute('aria-invalid', 'true');
    await write('Tempo, bpm', '90');
    await expect.element(field('Tempo, bpm')).toHaveAttribute('aria-invalid', 'false');
    await write('Tempo, bpm', '20');
    await expect.element(field('Tempo, bpm')).toHaveAttribute('aria-invalid', 'true');
  });

  it('keeps the focus at hand when there is nothing more to take back or to make again', async () => {
    await sevens();
    (button('Undo').element() as HTMLElement).focus();
    await press('{Enter}{Enter}');
    await expect.element(button('Undo')).toBeDisabled();
    await expect.poll(() => document.activeElement).toBe(button('Redo').element());
    await press('{Enter}{Enter}');
    await expect.element(button('Redo')).toBeDisabled();
    await expect.poll(() => document.activeElement).toBe(button('Undo').element());
  });

  it('takes a change back and makes it again by keyboard', async () => {
    await sevens();
    await press('{Control>}z{/Control}');
    await expect.element(field('Grouping')).toHaveValue('R L');
    await press('{Control>}{Shift>}z{/Shift}{/Control}');
    await expect.element(field('Grouping')).toHaveValue('R L R R L L K');
  });
});

describe('a field, once an edit is taken back', () => {
  it('no longer refuses what no longer stands in it', async () => {
    await sevens();
    await write('Tempo, bpm', '100');
    await write('Tempo, bpm', '');
    await expect.element(field('Tempo, bpm')).toHaveAttribute('aria-invalid', 'true');
    await press('{Control>}z{/Control}');
    await expect.element(field('Tempo, bpm')).toHaveValue(90);
    await expect.element(field('Tempo, bpm')).toHaveAttribute('aria-invalid', 'false');
  });

  it('says the places that the change has now, and what is typed stays as typed until then', async () => {
    await sevens();
    await field('position').fill('1');
    await field('Level').selectOptions('accent');
    await button('Add as a new layer').click();
    await page.getByRole('button', { name: 'Edit “position 1: as accents”' }).click();
    const places = layers.nth(1).getByLabelText('position', { exact: true });
    await places.fill('1,3 ,');
    await expect.element(places).toHaveValue('1,3 ,');
    await press('{Control>}z{/Control}');
    await expect.element(places).toHaveValue('1');
    await places.fill('x');
    await expect.element(places).toHaveAttribute('aria-invalid', 'true');
    await places.fill('2');
    await expect.element(places).toHaveAttribute('aria-invalid', 'false');
    expect(cells('level')[1]).toBe('accent');
  });

  it('tells a layer without a name at the name', async () => {
    await sevens();
    await write('Name of the layer', '');
    await expect.element(field('Name of the layer')).toHaveAttribute('aria-invalid', 'true');
    expect(faults()).toHaveLength(1);
  });
});

describe('layers', () => {
  it('can be pressed where they stand: 44 px high', async () => {
    await mountShell('#compose/quay-steps');
    const low = [...document.querySelectorAll<HTMLElement>('main button')]
      .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 44)
      .map((one) => one.textContent.trim());
    expect(low).toEqual([]);
  });

  it('come from places that come round whatever the cycle', async () => {
    await sevens();
    await field('every Nth partial: N').fill('5');
    await expect.element(told('selected')).toHaveTextContent(/\b2\b/);
    await field('which of the 5').fill('1, 3');
    await field('Voice').selectOptions('floor tom');
    await button('Add as a new layer').click();
    const tom = 'floor tom';
    const words = changeWords({
      kind: 'set',
      where: { every: { partials: 5, at: [1, 3] } },
      set: { voice: tom },
    });
    await expect.element(layers.nth(1)).toHaveTextContent(words);
    expect(cells('voice')).toEqual([tom, 'snare', tom, 'snare', 'snare', tom, 'bass drum']);
  });

  it('come from a sentence: every right hand except the first of the cycle', async () => {
    await sevens();
    await field('every: limb').selectOptions('right hand');
    await page.getByLabelText('leave some of them out').click();
    await page.getByLabelText('stroke of its limb').last().fill('1');
    await expect.element(told('selected')).toHaveTextContent(/\b1\b.*\b2\b/);
    await expect.element(told('change-told')).toBeVisible();
    expect(names()).toHaveLength(1);
    await field('Voice').selectOptions('floor tom');
    await button('Add as a new layer').click();
    expect(names()).toEqual(['1 Sticking', '2 Floor tom']);
    expect(cells('voice')).toEqual([
      'snare',
      'snare',
      'floor tom',
      'floor tom',
      'snare',
      'snare',
      'bass drum',
    ]);
    const changed = [...row('sticking')].map((cell) => cell.classList.contains('changed'));
    expect(changed).toEqual([false, false, true, true, false, false, false]);
  });

  it('come from notes chosen on the score line', async () => {
    await sevens();
    await userEvent.click(document.querySelector('[data-key="1/R"]')!);
    await expect.element(told('selected')).toHaveTextContent(/\b1\b.*\b1\b/);
    await field('Level').selectOptions('accent');
    await button('Add to layer 1').click();
    expect(cells('level')[0]).toBe('accent');
    expect(names()).toEqual(['1 Sticking']);
    await expect.element(told('change-told')).toHaveTextContent(/\b1\b/);
    await press('{Control>}z{/Control}');
    await expect.poll(() => cells('level')[0]).toBe('tap');
  });

  it('leave the focus on the score line once they are added, where the next one begins', async () => {
    await sevens();
    await field('position').fill('1');
    await field('Level').selectOptions('accent');
    (button('Add as a new layer').element() as HTMLElement).focus();
    await press('{Enter}');
    expect(names()).toHaveLength(2);
    await expect.poll(() => document.activeElement?.getAttribute('data-key')).toBe('1/R');
  });

  it('begin an exception with the first stroke of the limb, said right after the box', async () => {
    await sevens();
    await field('every: limb').selectOptions('right hand');
    await page.getByLabelText('leave some of them out').click();
    await expect.element(told('selected')).toHaveTextContent(/\b1\b.*\b2\b/);
    await press('{Tab}');
    expect(document.activeElement).toBe(field('except: limb').element());
  });

  it('say so when they have no use for the notes that are selected', async () => {
    await sevens();
    await field('position').fill('1');
    await field('Change').selectOptions('a pickup');
    await expect
      .element(told('change-told'))
      .toHaveTextContent(whatIsUnused(BEGINNINGS.pickup, { positions: [1] })!);
    await button('Select none').click();
    await expect.element(told('change-told')).toHaveTextContent(/^$/);
  });

  it('have a pickup that begins as far before beat 1 as is asked for, without a hole, and seen first', async () => {
    await sevens();
    await field('Change').selectOptions('a pickup');
    const places = page.getByTestId('pickup-place');
    await expect.poll(() => places.elements().length).toBe(1);
    await write('How far before beat 1 it begins, partials', '3');
    await expect.poll(() => places.elements().length).toBe(3);
    await expect.element(places.first()).toHaveTextContent('4e 3 partials before beat 1');
    const preview = page.getByTestId('pickup-preview').getByRole('img');
    await expect.element(preview).toHaveAccessibleName(/pickup, 3 ahead, left hand/);
    await field('4&: limb').selectOptions('rest');
    await field('4a: level').selectOptions('accent');
    await expect.element(preview).toHaveAccessibleName(/pickup, 1 ahead, left hand, snare, accent/);
    expect(preview.element().getAttribute('aria-label')).not.toContain('pickup, 2 ahead');
    await field('4&: limb').selectOptions('right foot');
    await page.getByRole('button', { name: '4e: another limb with it' }).click();
    await button('Add as a new layer').click();
    expect(faults()).toEqual([]);
    await expect
      .element(layers.nth(1))
      .toHaveTextContent(
        /L 3 partials ahead, R 3 partials ahead, K 2\b.*L \(accent\) 1 partial ahead/,
      );
  });

  it('tell the notes of the pickup that change too', async () => {
    await mountShell('#compose/quay-steps');
    await field('every: limb').selectOptions('left hand');
    // Quay Steps: eight left hands in a cycle of R L R L K four times, and one of the two strokes of the pickup.
    await expect
      .element(told('selected'))
      .toHaveTextContent('left hand: 8 notes of the cycle and 1 of the pickup');
    const ahead = page.getByRole('button', { name: /^pickup, 1 ahead/ });
    await expect.element(ahead).toHaveAttribute('aria-pressed', 'true');
    await field('position').fill('2, 4');
    await expect
      .element(told('selected'))
      .toHaveTextContent(/positions 2, 4: 2 notes of the cycle$/);
  });

  it('take strokes by their number in each group', async () => {
    await mountShell('#compose');
    await write('Grouping', 'R R L K F');
    await write('Cycle, partials', '15');
    expect(field('stroke in each group').elements()).toEqual([]);
    await field('every: limb').selectOptions('right hand');
    await field('stroke in each group').fill('2');
    await expect
      .element(told('selected'))
      .toHaveTextContent('right hand, strokes 2, 4, 6: 3 notes of the cycle');
    await expect.element(field('stroke of its limb')).toHaveValue('2, 4, 6');
    await field('stroke in each group').fill('3');
    await expect.element(page.getByText('A group has 2 such strokes')).toBeVisible();
    await field('stroke of its limb').fill('1, 3, 5');
    await expect.element(field('stroke in each group')).toHaveValue('1');
  });

  it('go to another phrase as a layer of it, or say why they do not suit it', async () => {
    let ids: string[] = [];
    const { library } = await mountShell('#phrases', async ({ library }) => {
      ids = await Promise.all(
        [
          { title: 'Long Rope', grouping: 'R L R R L L K' },
          { title: 'Short Rope', grouping: 'R L K' },
        ].map(async (head) => (await library.add(phraseOf(head))).id),
      );
    });
    location.hash = '#compose';
    await write('Title', 'Seven Piles');
    await write('Grouping', 'R L R R L L K');
    await field('position').fill('5');
    await field('Level').selectOptions('accent');
    await button('Add as a new layer').click();
    await expect.poll(() => names()).toHaveLength(2);
    await expect.element(button('Copy')).toBeDisabled();
    await field('Copy the layer to').selectOptions('Long Rope');
    await button('Copy').click();
    await expect.element(told('copied')).toHaveTextContent('Accents is layer 2 of Long Rope.');
    expect(library.find(ids[0]!)!.phrase.layers[1]).toMatchObject({
      name: 'Accents',
      changes: [{ kind: 'set', where: { positions: [5] }, set: { level: 'accent' } }],
    });
    await field('Copy the layer to').selectOptions('Short Rope');
    await button('Copy').click();
    await expect
      .element(told('copied'))
      .toHaveTextContent(/^Accents does not suit Short Rope: .*5/);
    expect(library.find(ids[1]!)!.phrase.layers).toHaveLength(1);
  });

  it('of every kind can be added', async () => {
    await sevens();
    for (const kind of [
      'accents at a distance of their own',
      'more strokes',
      'a pickup',
      'where the cycle starts',
      'the subdivision',
    ]) {
      await field('Change').selectOptions(kind);
      await button('Add as a new layer').click();
    }
    expect(names()).toEqual([
      '1 Sticking',
      '2 Accent every 3',
      '3 Added strokes',
      '4 Pickup',
      '5 Displacement',
      '6 Subdivision',
    ]);
    expect(faults()).toEqual([]);
  });

  it('are renamed, moved, split, merged, muted, duplicated and removed', async () => {
    await mountShell('#compose/quay-steps');
    const first = ['1 Sticking', '2 Accents', '3 Toms', '4 Pickup', '5 Ghosts'];
    expect(names()).toEqual(first);
    await button('3 Toms').click();
    await write('Name of the layer', 'Low and high');
    expect(names()[2]).toBe('3 Low and high');
    await button('Split').click();
    expect(names()).toEqual([
      '1 Sticking',
      '2 Accents',
      '3 Floor tom',
      '4 High tom',
      '5 Pickup',
      '6 Ghosts',
    ]);
    await button('Merge with the next').click();
    expect(names()[2]).toBe('3 Floor tom and High tom');
    await button('Move up').click();
    expect(names().slice(1, 3)).toEqual(['2 Floor tom and High tom', '3 Accents']);
    await button('Move down').click();
    await button('Mute').click();
    await expect.element(button('Muted')).toHaveAttribute('aria-pressed', 'true');
    await page
      .getByRole('group', { name: 'Layer 3' })
      .getByRole('button', { name: 'Duplicate' })
      .click();
    expect(names()).toHaveLength(6);
    await button('Remove').click();
    expect(names()).toHaveLength(5);
    for (let i = 0; i < 20; i++) await press('{Control>}z{/Control}');
    expect(names()).toEqual(first);
  });

  it('keep the focus on what was pressed, wherever the layer goes', async () => {
    await mountShell('#compose/quay-steps');
    const focused = () =>
      (document.activeElement as HTMLElement).textContent.trim().replace(/\s+/g, ' ');
    (button('2 Accents').element() as HTMLElement).focus();
    await press('{Enter}');
    (button('Move down').element() as HTMLElement).focus();
    await press('{Enter}{Enter}');
    await expect.poll(() => names().indexOf('4 Accents')).toBe(3);
    expect(focused()).toBe('Move down');
    await press('{Enter}');
    // The last layer goes no later: the focus stays with the layer.
    await expect.poll(focused).toBe('5 Accents');
    (page.getByRole('button', { name: /^Remove “/ }).element() as HTMLElement).focus();
    await press('{Enter}');
    await expect.poll(focused).toBe('5 Accents');
  });

  it('tell what is wrong with a change at the layer, and let it be mended there', async () => {
    await sevens();
    await field('position').fill('1');
    await field('Level').selectOptions('accent');
    await button('Add as a new layer').click();
    await write('Grouping', 'R L R R L L K');
    await page.getByRole('button', { name: 'Edit “position 1: as accents”' }).click();
    await layers.nth(1).getByLabelText('position', { exact: true }).fill('9');
    const fault = layers.nth(1).getByTestId('faults');
    await expect.element(fault).toHaveTextContent(/\b9\b.*\b7\b/);
    await expect.element(fault).toBeVisible();
    expect(faults()).toHaveLength(1);
    await layers.nth(1).getByLabelText('position', { exact: true }).fill('2');
    expect(cells('level')[1]).toBe('accent');
    expect(faults()).toEqual([]);
  });
});

describe('the table of positions', () => {
  it('is written by keyboard alone', async () => {
    await sevens();
    (row('sticking')[0] as HTMLElement).focus();
    await press('{ArrowRight}{ArrowRight}l{Enter}');
    expect(cells('sticking').slice(0, 4)).toEqual(['R', 'L', 'L', 'R']);
    expect(document.activeElement).toBe(row('sticking')[2]);
  });

  it('writes sticking, level and voice', async () => {
    await sevens();
    (row('sticking')[0] as HTMLElement).focus();
    await press('{ArrowRight}{ArrowRight}{Enter}{Backspace}L{Enter}');
    await expect.element(field('Grouping')).toHaveValue('R L L R L L K');
    await press('{ArrowDown}{ArrowDown}g');
    expect(cells('level')[2]).toBe('ghost');
    await press('{ArrowUp}{Home}{Enter}');
    await page.getByLabelText('voice of position 1').selectOptions('ride bell');
    await press('{Enter}');
    expect(cells('voice')[0]).toBe('ride bell');
    expect(document.activeElement).toBe(row('voice')[0]);
  });

  it('says what a cell may hold, and leaves it as it was on Escape', async () => {
    await sevens();
    (row('sticking')[0] as HTMLElement).focus();
    await press('x{Enter}');
    await expect.element(told('grid-told')).toHaveTextContent('“x”');
    await press('{Escape}');
    expect(cells('sticking')[0]).toBe('R');
  });

  it('has rows for strokes that sound together', async () => {
    await sevens();
    await write('Grouping', 'R+K L');
    expect(cells('voice, stroke 2')).toEqual(['bass drum', '']);
  });
});

describe('from and to the other screens', () => {
  it('the list of phrases leads to a new one, to unfinished ones, and from a phrase to its copy', async () => {
    const { library } = await mountShell('#phrases', async ({ library: list }) => {
      const check = new DraftCheck({
        title: 'Half a pier',
        meter: '4/4',
        tempoBpm: 90,
        subdivision: 4,
        grouping: 'R Q',
        layers: [{ name: 'Sticking', changes: [] }],
      });
      await list.save('own-1', check);
    });
    await page.getByRole('link', { name: 'Half a pier' }).click();
    await write('Grouping', 'R L');
    await expect.poll(() => library.unfinished.length).toBe(0);
    await page.getByRole('link', { name: 'All phrases' }).click();
    await page.getByRole('link', { name: 'Quay Steps' }).click();
    await page.getByRole('link', { name: 'Make a copy of my own' }).click();
    await expect.element(field('Title')).toHaveValue('Quay Steps, copy');
  });

  it('what was left is as it was, and goes on, when it is opened again', async () => {
    const { route } = await sevens();
    await expect.poll(() => location.hash).toMatch(/^#compose\/own-/);
    const id = decodeURIComponent(location.hash.split('/')[1]!);
    route.go('phrases');
    await expect.element(page.getByRole('heading', { level: 1, name: 'Phrases' })).toBeVisible();
    route.go('compose', id);
    await write('Grouping', 'R K');
    expect(cells('sticking')).toEqual(['R', 'K']);
    await press('{Control>}z{/Control}{Control>}z{/Control}');
    expect(cells('sticking')).toEqual(['R', 'L']);
  });

  it('what is practised is the phrase as it was left', async () => {
    const { session, route } = await sevens();
    await told('practise-this').click();
    await expect.poll(() => route.current.screen).toBe('practise');
    route.go('compose', session.choices.phraseId);
    await write('Grouping', 'R K');
    route.go('help');
    await expect.poll(() => session.phrase?.groupingText).toBe('R K');
  });

  it('what is written is practised, and removed after a question', async () => {
    const { session, library, route } = await sevens();
    await told('practise-this').click();
    await expect.poll(() => route.current.screen).toBe('practise');
    expect(session.phrase?.title).toBe('Seven Piles');
    const entry = library.phrases.find(({ phrase }) => phrase.title === 'Seven Piles')!;
    route.go('compose', entry.id);
    await button('Remove this phrase').click();
    const question = page.getByRole('paragraph').filter({ has: button('Keep it') });
    await question.getByRole('button').first().click();
    await expect.poll(() => route.current.screen).toBe('phrases');
    expect(library.find(entry.id)).toBeUndefined();
  });

  it('a way into a form becomes a layer', async () => {
    await sevens();
    await page.getByText('Fit to a form').click();
    await page.getByTestId('use-fit').first().click();
    await expect.poll(() => names()).toHaveLength(2);
    expect(faults()).toEqual([]);
  });
});
