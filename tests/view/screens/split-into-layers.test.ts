import { describe, expect, it } from 'vitest';
import { button, field, names, sevens, told, write } from './composer';

describe('the layers of a phrase', () => {
  it('are split into one idea each, and back', async () => {
    await sevens();
    await field('every: limb').selectOptions('left hand');
    await field('Voice').selectOptions('floor tom');
    await field('Level').selectOptions('ghost');
    await button('Add as a new layer').click();
    await write('Name of the layer', 'All at once');
    await button('Split into layers').click();
    expect(names()).toEqual(['1 Sticking', '2 Toms', '3 Ghosts']);
    await expect.element(told('split-told')).toHaveTextContent(/\b3\b/);
    await button('Undo').click();
    expect(names()).toEqual(['1 Sticking', '2 All at once']);
    await expect.element(told('split-told')).toHaveTextContent(/^$/);
  });

  it('are told to be as they would be proposed', async () => {
    await sevens();
    await button('Split into layers').click();
    await expect.element(told('split-told')).toHaveTextContent('It is split that way already.');
  });
});
