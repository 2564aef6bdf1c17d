import { describe, expect, it } from 'vitest';
import { page, type Locator } from 'vitest/browser';
import { storeProblem } from '../../../src/store/store-problem';
import { mountShell } from '../mount-shell';
import { playFiveOars } from '../played-rounds';
import { StubCapturing } from '../stub-capturing';
import type { StubParts } from '../stub-parts';
import { StubCaptureStore } from '../stub-capture-store';

const byId = (testid: string) => page.getByTestId(testid);
const button = (name: string | RegExp) => page.getByRole('button', { name });

/** Five oars, eight times round to a click at 120, written down. */
async function captured(prepare: (parts: StubParts) => void = () => undefined) {
  const parts = await mountShell('#capture', prepare);
  await playFiveOars(parts, 8);
  await expect.element(byId('written')).toBeVisible();
  return parts;
}

const rowOf = (about: string) =>
  byId('findings').element().querySelector<HTMLElement>(`tr[data-about="${about}"]`)!;

async function typeInto(field: Locator, text: string) {
  await field.fill(text);
  field.element().dispatchEvent(new Event('change', { bubbles: true }));
}

describe('capture on the screen', () => {
  it('counts while it listens, and then says what was played', async () => {
    const { capturing, inputs } = await mountShell('#capture');
    await expect.element(byId('capture-status')).toHaveTextContent('Not listening');
    capturing.choose({ tempoBpm: 120 });
    await byId('capture-start').click();
    await expect.element(byId('capture-status')).toHaveTextContent('Counting in');
    expect(byId('players').query()).toBeNull();
    expect(byId('capture-beat').query()).toBeNull();
    // The first click sounds 600 ms after the start; a beat at 120 is half a second.
    capturing.pass(600 + 1100);
    await expect.element(byId('capture-beat')).toHaveTextContent('3 beat of the count-in');
    capturing.pass(900 + 600);
    await expect.element(byId('capture-status')).toHaveTextContent('Play');
    await expect.element(byId('capture-beat')).toHaveTextContent('2 beat, bar 1');
    for (let i = 0; i < 7; i++) inputs.listener!(13_100 + 125 * i, 0x99, 38, 80);
    capturing.pass(1000);
    await expect.element(byId('stroke-count')).toHaveTextContent('7');
    await byId('capture-start').click();
    await expect
      .element(byId('not-written'))
      .toHaveTextContent(/expected at least 8.*too few to be kept/);
    expect(byId('correct-it').query()).toBeNull();
  });

  it('writes the phrase down as layers, with how sure it is in words', async () => {
    await captured();
    await expect
      .element(byId('written'))
      .toHaveTextContent('A cycle of 5 sixteenths, played 8 times round at 120 bpm.');
    expect(rowOf('cycle').textContent).toMatch(/5 partials, 8 times round\s+sure/);
    expect(rowOf('sticking').dataset['sure']).toBe('false');
    expect(rowOf('sticking').textContent).toContain('not sure');
    expect(rowOf('sticking').textContent).toContain('R L R L K');
    await expect.element(page.getByText(/The sticking is only a likely one/)).toBeVisible();
    const positions = byId('positions').element();
    const row = (name: string) =>
      [...positions.querySelectorAll(`tr.${name} td`)].map((cell) => cell.textContent?.trim());
    expect(row('voice')).toEqual(['floor tom', 'snare', 'snare', 'snare', 'bass drum']);
    expect(row('level')).toEqual(['accent', 'ghost', 'tap', 'ghost', 'tap']);
    await button('1 Sticking').click();
    await expect.poll(() => row('level')[0]).toBe('tap');
  });

  it('claims no more than is sure, and leads to where it is put right', async () => {
    const parts = await mountShell('#capture');
    const { capturing, inputs } = parts;
    await playFiveOars(parts, 8);
    expect(byId('to-correct').query()).toBeNull();
    await expect.element(byId('outcome-of')).toHaveTextContent('18:20, to the click at 120');
    await capturing.start();
    const VOICES = [43, 38, 36, 45, 48, 51, 49, 42, 46, 55];
    VOICES.forEach((note, i) =>
      inputs.listener!(capturing.hand.nowMs + 2600 + i * 125, 0x99, note, 80),
    );
    capturing.stop();
    await expect.element(byId('not-written')).toHaveTextContent(/played once.*10 strokes are kept/);
    await typeInto(byId('correct-cycle'), '10');
    await expect
      .element(byId('written'))
      .toHaveTextContent('A cycle of 10 sixteenths, played once round at 120 bpm.');
    await typeInto(byId('correct-cycle'), '');
    await expect.element(byId('not-written')).toBeVisible();
    capturing.choose({ way: 'free' });
    await capturing.start();
    // Two rounds, unevenly: nobody could be sure of their tempo.
    const fromMs = capturing.hand.nowMs;
    for (let i = 0; i < 16; i++)
      inputs.listener!(
        fromMs + i * 156 + (((i * 7) % 19) - 9) * 5,
        0x99,
        [43, 38, 38, 36, 38][i % 5]!,
        80,
      );
    capturing.stop();
    await expect.element(byId('written')).toHaveTextContent(/^Perhaps a cycle of/);
    await byId('to-correct').click();
    await expect
      .element(page.getByRole('region', { name: 'Put it right without playing again' }))
      .toHaveFocus();
  });

  it('lets what was played and what was written be heard', async () => {
    const { audition, capturing } = await captured();
    await button('Hear what was played').click();
    expect(audition.strokes?.strokes).toBe(capturing.played!.strokes);
    await button(/Hear what was written, layer/).click();
    expect(audition.heard?.phrase.cycle).toBe(5);
    await button('1 Sticking').click();
    await expect.poll(() => audition.heard?.layer).toBe(1);
  });

  it('is put right without playing again', async () => {
    await captured();
    await button('Half: 60').click();
    await expect.element(byId('written')).toHaveTextContent(/5 thirty-seconds.* at 60 bpm/);
    expect(rowOf('tempo').textContent).toContain('as you said');
    await button('As it was heard').click();
    await expect.element(byId('written')).toHaveTextContent('at 120 bpm');
    await byId('counted-as').selectOptions('eighth triplets at 160 bpm');
    await expect.element(byId('written')).toHaveTextContent(/5 eighth triplets.* at 160 bpm/);
    await button('As it was heard').click();

    const meter = byId('correct-it').getByLabelText('Meter');
    await typeInto(meter, '7/8');
    await expect.element(page.getByText(/over 7\/8/).first()).toBeVisible();
    await typeInto(meter, 'seven');
    await expect.element(page.getByText('Write a meter such as')).toBeVisible();
    await button('As it was heard').click();

    await typeInto(byId('correct-cycle'), '10');
    await expect.element(byId('written')).toHaveTextContent('A cycle of 10 sixteenths');
    await expect.element(byId('corrected')).toHaveTextContent('A cycle of 10 sixteenths');
    expect(rowOf('cycle').textContent).toContain('10 partials, as you said, 4 times round');
    await typeInto(byId('correct-cycle'), '2.5');
    await expect.element(page.getByText('A cycle is 1 to 256 whole partials')).toBeVisible();
    await typeInto(byId('correct-cycle'), '');
    await expect.element(byId('written')).toHaveTextContent('A cycle of 5 sixteenths');

    await byId('first-on').selectOptions('& of beat 2');
    expect(rowOf('meter position').textContent).toContain('where you said');
  });

  it('is edited and practised as one’s own phrase, under a title', async () => {
    const parts = await captured();
    const title = byId('captured-title');
    await title.fill(' ');
    await expect.element(byId('edit-captured')).toBeDisabled();
    await title.fill('Five Oars');
    await byId('edit-captured').click();
    await expect.poll(() => location.hash).toMatch(/^#compose\/own-/);
    const own = parts.library.phrases.filter(({ own }) => own);
    expect(own.map(({ phrase }) => [phrase.title, phrase.cycle])).toEqual([['Five Oars', 5]]);

    location.hash = '#capture';
    await expect.element(byId('written')).toBeVisible();
    await byId('practise-captured').click();
    await expect.poll(() => location.hash).toBe('#practise');
    expect(parts.session.entry?.phrase.cycle).toBe(5);
  });

  it('keeps what was played when somebody leaves in the middle', async () => {
    const parts = await mountShell('#capture');
    await playFiveOars(parts, 6, 'still playing');
    location.hash = '#kit';
    await expect.element(page.getByRole('heading', { level: 1, name: 'Kit' })).toBeVisible();
    expect(parts.inputs.listener).toBeUndefined();
    location.hash = '#capture';
    await expect.element(byId('written')).toHaveTextContent('6 times round');
  });

  it('tells that the kit is unplugged while it listens, and keeps what was played', async () => {
    const parts = await mountShell('#capture');
    await playFiveOars(parts, 6, 'still playing');
    const problem = byId('capture-problem');
    await expect.element(problem).toHaveTextContent('');
    parts.inputs.port.kind = 'unplugged';
    await expect
      .element(problem)
      .toHaveTextContent(/Boathouse kit is unplugged\. Unless it comes back.*so far is kept/);
    await expect.element(byId('capture-status')).toHaveTextContent('Boathouse kit is unplugged.');
    parts.inputs.port.kind = 'ready';
    await expect.element(byId('capture-status')).toHaveTextContent('Listening');
    await expect.element(problem).toHaveTextContent('');
    parts.inputs.port.kind = 'unplugged';
    await byId('capture-start').click();
    await expect.element(problem).toHaveTextContent(/What was played before that is kept/);
    await expect.element(byId('written')).toHaveTextContent('6 times round');
    parts.inputs.port.kind = 'ready';
    await expect.element(problem).toHaveTextContent('');
  });

  it('has pads for whoever has no kit, and says what is missing', async () => {
    const { inputs } = await mountShell('#capture', ({ inputs }) => {
      inputs.port.kind = 'no device';
    });
    await expect.element(byId('no-kit')).toHaveTextContent('Connect the kit');
    inputs.choosePlayer('keyboard and pads');
    const pads = page.getByRole('region', { name: 'Pads' });
    await pads.getByRole('button', { name: /snare/ }).click();
    expect(inputs.struck.map(({ voice }) => voice)).toEqual(['snare']);
    expect(byId('no-kit').query()).toBeNull();
  });

  it('says what the simulated player is about to play, and who else could', async () => {
    const { inputs, session } = await mountShell('#capture', ({ inputs }) => {
      inputs.player = 'simulated player';
    });
    await expect
      .element(byId('simulated'))
      .toHaveTextContent(
        `plays ${session.phrase!.title}, layer ${session.choices.layer}, several times`,
      );
    await page.getByLabelText('the kit', { exact: true }).click();
    expect(inputs.player).toBe('kit');
    expect(byId('simulated').query()).toBeNull();
    await expect.element(page.getByLabelText('the simulated player')).toBeVisible();
  });

  it('brings what is heard, and then what was written down, into sight', async () => {
    const parts = await mountShell('#capture', ({ inputs }) => {
      inputs.player = 'keyboard and pads';
    });
    await page.viewport(390, 500);
    await expect.element(page.getByRole('region', { name: 'Pads' })).toBeVisible();
    scrollTo(0, 9999);
    await playFiveOars(parts, 6, 'still playing');
    const topOf = (testid: string) => byId(testid).element().getBoundingClientRect().top;
    await expect.poll(() => Math.round(topOf('listening'))).toBeGreaterThanOrEqual(0);
    expect(topOf('listening')).toBeLessThan(60);
    parts.capturing.stop();
    await expect.element(byId('written')).toBeVisible();
    await expect
      .poll(() => byId('written').element().getBoundingClientRect().bottom)
      .toBeLessThanOrEqual(500);
    await page.viewport(1280, 800);
  });

  it('goes back to what was played before', async () => {
    const parts = await captured();
    await playFiveOars(parts, 4);
    await expect.element(byId('written')).toHaveTextContent('4 times round');
    await button(/40 strokes, to the click at 120/).click();
    await expect.element(byId('written')).toHaveTextContent('8 times round');
  });

  it('lists what was played before the page was opened, and opens it', async () => {
    const stored = new StubCaptureStore();
    const { capturing } = await mountShell('#capture', async (parts) => {
      const { session, inputs, calibration } = parts;
      const open = () => new StubCapturing(session, inputs, calibration, stored);
      await playFiveOars({ ...parts, capturing: open() }, 6);
      Object.assign(parts, { capturing: open() });
      await parts.capturing.load();
    });
    expect(byId('written').query()).toBeNull();
    await button(/^18:20, 30 strokes, to the click at 120$/).click();
    await expect.element(byId('written')).toHaveTextContent('6 times round');
    expect(capturing.plays).toHaveLength(1);
    expect(byId('played-before').query()).toBeNull();
  });

  it('says that what was played goes with the page when there is no room for it', async () => {
    const parts = await mountShell('#capture');
    parts.capturing.stored.problem = storeProblem('FULL');
    await playFiveOars(parts, 6);
    await expect
      .element(byId('not-kept'))
      .toHaveTextContent(/only until this page is closed\. The disk is full/);
    await expect.element(byId('written')).toHaveTextContent('6 times round');
  });

  it('says of what was played before whether it was cut short', async () => {
    const stored = new StubCaptureStore();
    await mountShell('#capture', async (parts) => {
      const { session, inputs, calibration } = parts;
      const open = () => new StubCapturing(session, inputs, calibration, stored);
      const killed = open();
      await playFiveOars({ ...parts, capturing: killed }, 6, 'still playing');
      await expect.poll(() => stored.records.size).toBe(1);
      killed.pass(500);
      Object.assign(parts, { capturing: open() });
      await parts.capturing.load();
    });
    await button('18:20, 30 strokes, to the click at 120, cut short').click();
    await expect.element(byId('written')).toHaveTextContent('6 times round');
  });

  it('starts and stops by the space bar, unless that is a drum', async () => {
    const { capturing, inputs } = await mountShell('#capture');
    const press = (key: string) =>
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }));
    press(' ');
    await expect.poll(() => capturing.status).toBe('counting in');
    press('Escape');
    expect(capturing.status).toBe('idle');
    inputs.choosePlayer('keyboard and pads');
    press(' ');
    expect(capturing.status).toBe('idle');
  });

  it('reads a MIDI file, or says what is wrong with it', async () => {
    const { capturing } = await mountShell('#capture');
    await page.getByLabelText('from a MIDI file').click();
    await byId('file-to-read').upload(new File(['no music'], 'harbour.mid'));
    await expect
      .element(byId('capture-problem'))
      .toHaveTextContent('harbour.mid could not be read.');
    const take = await fetch(new URL('../../../shared/takes/take-08.mid', import.meta.url));
    await byId('file-to-read').upload(new File([await take.blob()], 'baiao.mid'));
    // 95 bpm: the dataset's table (F), shared/takes/README.md.
    await expect.element(byId('written')).toHaveTextContent('at 95 bpm');
    await expect.element(byId('what-was-played')).toHaveTextContent('baiao.mid');
    await expect.element(byId('outcome-of')).toHaveTextContent('Read at 18:20, baiao.mid');
    await expect.element(byId('captured-title')).toHaveValue('baiao');
    expect(rowOf('meter position').textContent).toContain('bar 1 is where the file begins');
    expect(capturing.problem).toBeUndefined();
  });
});
