import { describe, expect, it } from 'vitest';
import { page, userEvent, type Locator } from 'vitest/browser';
import { mountShell } from '../../mount-shell';

const start = page.getByTestId('start');
const byHand = () =>
  mountShell('#practise', ({ inputs }) => inputs.choosePlayer('keyboard and pads'));

describe('the space bar on Practise', () => {
  /** Each is clicked; then the space bar starts, and stops. */
  const CLICKED: readonly (readonly [string, () => Locator])[] = [
    ['a button', () => page.getByRole('button', { name: 'Faster' })],
    ['a layer', () => page.getByTestId('layer-step').nth(2)],
    ['the slide of the tempo', () => page.getByRole('slider', { name: /^Tempo/ })],
    ['what is folded', () => page.getByTestId('settings').getByText('Settings:')],
    ['a radio button', () => page.getByRole('radio', { name: '2 and 4' })],
    ['a switch', () => page.getByRole('switch', { name: /^When a layer is passed/ })],
    ['a list that is closed again', () => page.getByLabelText('Theme')],
    ['the navigation', () => page.getByRole('link', { name: 'Practise', exact: true })],
  ];
  it.each(CLICKED)(
    'starts and stops after a click on %s, which it leaves as it is',
    async (_, what) => {
      // On a phone there is no slide.
      await page.viewport(1440, 900);
      const { session } = await mountShell('#practise', ({ session }) =>
        session.choose({ layer: 2 }),
      );
      await expect.element(page.getByTestId('settings')).toBeInTheDocument();
      if (what().query()?.checkVisibility() !== true)
        page.getByTestId('settings').element().querySelector('summary')!.click();
      const target = what().element();
      if (target instanceof HTMLSelectElement) target.focus();
      else await what().click();
      const before = JSON.stringify(session.choices);
      await userEvent.keyboard(' ');
      expect(session.status).toBe('playing');
      await userEvent.keyboard(' ');
      expect(session.status).toBe('idle');
      expect(JSON.stringify(session.choices)).toBe(before);
    },
  );

  it('leaves the focus on the button that stops, where what had it is folded away', async () => {
    const { session } = await mountShell('#practise');
    const settings = page.getByTestId('settings');
    await expect.element(settings).toBeInTheDocument();
    settings.element().querySelector('summary')!.focus();
    await userEvent.keyboard(' ');
    await expect.element(settings).not.toBeInTheDocument();
    expect(session.status).toBe('playing');
    expect(document.activeElement).toBe(start.element());
    await userEvent.keyboard(' ');
    expect(session.status).toBe('idle');
  });

  it('is written where something is written', async () => {
    const { session } = await mountShell('#practise');
    await page.getByTestId('tempo').click();
    await userEvent.keyboard(' ');
    expect(session.status).toBe('idle');
  });

  it('starts once however long it is held', async () => {
    const { session } = await mountShell('#practise');
    const press = (repeat: boolean) =>
      document.body.dispatchEvent(
        new KeyboardEvent('keydown', { key: ' ', repeat, bubbles: true, cancelable: true }),
      );
    press(false);
    press(true);
    expect(session.status).toBe('playing');
  });

  it('leaves Enter and the arrows to what has the focus', async () => {
    const { session } = await mountShell('#practise');
    const settings = page.getByTestId('settings');
    await expect.element(settings).toBeInTheDocument();
    settings.element().querySelector('summary')!.focus();
    await userEvent.keyboard('{Enter}');
    await expect.element(settings).toHaveAttribute('open');
    const moveOn = page.getByRole('switch', { name: /^When a layer is passed/ });
    (moveOn.element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    expect(session.choices.moveOn).toBe(true);
    await userEvent.keyboard('{Enter}');
    expect(session.choices.moveOn).toBe(false);
    (page.getByRole('radio', { name: 'all' }).element() as HTMLElement).focus();
    await userEvent.keyboard('{ArrowRight}');
    expect(session.choices.click.beats).not.toBe('all');
    (page.getByRole('button', { name: 'Faster' }).element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    expect(session.choices.tempoBpm).toBe(97);
    expect(session.status).toBe('idle');
  });
});

describe('practising on the computer keyboard', () => {
  it('does not stop when the bass drum is struck after the start button', async () => {
    const parts = await byHand();
    await start.click();
    await userEvent.keyboard(' ');
    expect(parts.session.status).toBe('playing');
  });

  it('leaves the space bar to the bass drum after the tempo, a layer or a pad was clicked', async () => {
    const parts = await byHand();
    await start.click();
    await page.getByRole('button', { name: 'Faster' }).click();
    await userEvent.keyboard(' ');
    expect(parts.session.choices.tempoBpm).toBe(97);
    await page.getByTestId('layer-step').nth(2).click();
    await page.getByTestId('layer-step').nth(1).click();
    expect(document.activeElement).toBe(document.body);
    await page.getByRole('button', { name: 'snare', exact: true }).click();
    await userEvent.keyboard(' ');
    expect(parts.inputs.struck).toHaveLength(1);
  });

  it('stops with the escape key, and says so', async () => {
    const parts = await byHand();
    await start.click();
    await expect.element(page.getByText('Esc: stop')).toBeInTheDocument();
    await userEvent.keyboard('{Escape}');
    expect(parts.session.status).toBe('idle');
    await userEvent.keyboard('{Escape}');
    expect(parts.session.status).toBe('idle');
  });

  it('writes the keys on the pads', async () => {
    await byHand();
    const snare = page.getByRole('button', { name: 'snare', exact: true });
    await expect.element(snare).toHaveTextContent('F J');
  });
});
