import { describe, expect, it, vi } from 'vitest';
import { page, userEvent, type Locator } from 'vitest/browser';
import { readMidiFile } from '../../../src/take/read-midi-file';
import { storeProblem } from '../../../src/store/store-problem';
import { PLAYER_NAMES } from '../../../src/view/screens/practise/players/player-words';
import {
  listeningWords,
  playedHow,
  takeWords,
} from '../../../src/view/screens/capture/played-words';
import { unsureWords, writtenWords } from '../../../src/view/screens/capture/written-words';
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

/** What is written down, told on the page in the words made for it. */
function shown({ outcome }: StubCapturing) {
  if (!outcome?.ok) return undefined;
  const { phrase, rounds } = outcome.value;
  expect(byId('written').element().textContent.trim()).toBe(writtenWords(outcome.value));
  return { cycle: phrase.cycle, to: phrase.subdivision, rounds, bpm: phrase.tempoBpm };
}

const codeOf = ({ outcome }: StubCapturing) =>
  outcome && !outcome.ok ? outcome.errors[0]?.code : undefined;

async function typeInto(field: Locator, text: string) {
  await field.fill(text);
  field.element().dispatchEvent(new Event('change', { bubbles: true }));
}

describe('capture on the screen', () => {
  it('counts while it listens, and then says what was played', async () => {
    const { capturing, inputs } = await mountShell('#capture');
    capturing.choose({ tempoBpm: 120 });
    await byId('capture-start').click();
    await expect.poll(() => capturing.status).toBe('counting in');
    await expect.element(byId('capture-status')).toHaveTextContent(listeningWords(capturing));
    expect(byId('players').query()).toBeNull();
    expect(byId('capture-beat').query()).toBeNull();
    // The first click sounds 600 ms after the start; a beat at 120 is half a second.
    capturing.pass(600 + 1100);
    await expect.element(byId('capture-beat')).toHaveTextContent(/^3\b\D+$/);
    capturing.pass(900 + 600);
    await expect.element(byId('capture-status')).toHaveTextContent(listeningWords(capturing));
    await expect.element(byId('capture-beat')).toHaveTextContent(/^2\b.*\b1$/);
    for (let i = 0; i < 7; i++) inputs.listener!(13_100 + 125 * i, 0x99, 38, 80);
    capturing.pass(1000);
    await expect.element(byId('stroke-count')).toHaveTextContent('7');
    await byId('capture-start').click();
    await expect.element(byId('not-written')).toBeVisible();
    expect(codeOf(capturing)).toBe('TOO_FEW_STROKES');
    expect(byId('correct-it').query()).toBeNull();
  });

  it('saves what was played as a MIDI file, which is heard as it was', async () => {
    const { capturing } = await captured();
    const saved = new Promise<{ name: string; bytes: Promise<ArrayBuffer> }>((done) => {
      vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (
        this: HTMLAnchorElement,
      ) {
        done({ name: this.download, bytes: fetch(this.href).then((file) => file.arrayBuffer()) });
      });
    });
    await byId('save-played').click();
    const { name, bytes } = await saved;
    vi.restoreAllMocks();
    expect(name).toMatch(/^played-.*z\.mid$/);
    const file = readMidiFile(new Uint8Array(await bytes));
    const struck = file.ok ? file.value.messages.map(({ data1, data2 }) => [data1, data2]) : [];
    expect(struck).toEqual(capturing.played!.messages.map(({ data1, data2 }) => [data1, data2]));
  });

  it('writes the phrase down as layers, with how sure it is in words', async () => {
    const { capturing } = await captured();
    await expect
      .poll(() => shown(capturing))
      .toMatchObject({ cycle: 5, to: 4, rounds: 8, bpm: 120 });
    expect(rowOf('cycle').dataset['sure']).toBe('true');
    expect(rowOf('sticking').dataset['sure']).toBe('false');
    expect(rowOf('sticking').textContent).toContain('R L R L K');
    const report = capturing.outcome?.ok ? capturing.outcome.value : undefined;
    await expect.element(page.getByText(unsureWords(report!))).toBeVisible();
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
    await expect.element(byId('outcome-of')).toHaveTextContent(playedHow(capturing.played!));
    await capturing.start();
    const VOICES = [43, 38, 36, 45, 48, 51, 49, 42, 46, 55];
    VOICES.forEach((note, i) =>
      inputs.listener!(capturing.hand.nowMs + 2600 + i * 125, 0x99, note, 80),
    );
    capturing.stop();
    await expect.element(byId('not-written')).toHaveTextContent(/\b10\b/);
    expect(codeOf(capturing)).toBe('NO_CYCLE');
    await typeInto(byId('correct-cycle'), '10');
    await expect
      .poll(() => shown(capturing))
      .toMatchObject({ cycle: 10, to: 4, rounds: 1, bpm: 120 });
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
    await byId('to-correct').click();
    expect(document.activeElement?.contains(byId('correct-it').element())).toBe(true);
    expect(document.activeElement).not.toBe(document.body);
  });

  it('has the hands put right by keyboard: one stroke, who leads, right for left', async () => {
    const { capturing } = await captured();
    const sticking = () => rowOf('sticking').textContent;
    await expect.poll(sticking).toContain('R L R L K');
    const third = button('position 3, snare: right hand');
    (third.element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    await expect.poll(sticking).toContain('R L L L K');
    await expect.element(button('position 3, snare: left hand')).toHaveFocus();
    await expect.element(byId('positions')).toHaveTextContent(/R\s*L\s*L\s*L\s*K/);
    const swap = button('Swap right and left');
    (swap.element() as HTMLElement).focus();
    await userEvent.keyboard(' ');
    await expect.poll(sticking).toContain('L R R R K');
    await expect.element(swap).toHaveAttribute('aria-pressed', 'true');
    await button('Back to what was heard').click();
    await expect.poll(sticking).toContain('R L R L K');
    expect(capturing.corrections).toEqual({});
    await byId('leads').selectOptions('left hand');
    await expect.poll(sticking).toContain('L R L R K');
    // Stored with what was played.
    expect([...capturing.stored.records.values()].at(-1)!.said).toEqual({ leads: 'L' });
  });

  it('lets what was played and what was written be heard', async () => {
    const { audition, capturing } = await captured();
    await button(/what was played$/).click();
    expect(audition.strokes?.strokes).toBe(capturing.played!.strokes);
    await button(/what was written, layer/).click();
    expect(audition.heard?.phrase.cycle).toBe(5);
    await button('1 Sticking').click();
    await expect.poll(() => audition.heard?.layer).toBe(1);
  });

  it('is put right without playing again', async () => {
    const { capturing } = await captured();
    await button('Half: 60').click();
    await expect.poll(() => shown(capturing)).toMatchObject({ cycle: 5, to: 8, bpm: 60 });
    expect(capturing.corrections).toEqual({ tempoBpm: 60 });
    await button('Back to what was heard').click();
    await expect.poll(() => shown(capturing)).toMatchObject({ bpm: 120 });
    expect(capturing.corrections).toEqual({});
    await byId('counted-as').selectOptions('3');
    await expect.poll(() => shown(capturing)).toMatchObject({ cycle: 5, to: 3, bpm: 160 });
    await button('Back to what was heard').click();

    const meter = byId('correct-it').getByLabelText('Meter');
    await typeInto(meter, '7/8');
    expect(capturing.corrections.meter).toBe('7/8');
    await typeInto(meter, 'seven');
    await expect.element(meter).toHaveAttribute('aria-invalid', 'true');
    await expect.element(byId('correct-it').getByRole('alert')).toBeVisible();
    expect(capturing.corrections.meter).toBe('7/8');
    await button('Back to what was heard').click();

    await typeInto(byId('correct-cycle'), '10');
    await expect.poll(() => shown(capturing)).toMatchObject({ cycle: 10, rounds: 4 });
    await expect
      .element(byId('corrected'))
      .toHaveTextContent(byId('written').element().textContent.trim());
    await typeInto(byId('correct-cycle'), '2.5');
    await expect.element(byId('correct-cycle')).toHaveAttribute('aria-invalid', 'true');
    expect(capturing.corrections.cyclePartials).toBe(10);
    await typeInto(byId('correct-cycle'), '');
    await expect.poll(() => shown(capturing)).toMatchObject({ cycle: 5 });

    // The and of beat 2, in sixteenths from 0.
    await byId('first-on').selectOptions('6');
    expect(capturing.corrections.firstOn).toEqual({ partial: 6, subdivision: 4 });
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
    await expect.poll(() => shown(parts.capturing)).toMatchObject({ rounds: 6 });
  });

  it('tells that the kit is unplugged while it listens, and keeps what was played', async () => {
    const parts = await mountShell('#capture');
    await playFiveOars(parts, 6, 'still playing');
    const problem = byId('capture-problem');
    await expect.element(problem).toHaveTextContent('');
    parts.inputs.port.kind = 'unplugged';
    await expect.element(problem).toHaveTextContent(/Boathouse kit/);
    await expect.element(byId('capture-status')).toHaveTextContent(/Boathouse kit/);
    parts.inputs.port.kind = 'ready';
    await expect.element(byId('capture-status')).toHaveTextContent(listeningWords(parts.capturing));
    await expect.element(problem).toHaveTextContent('');
    parts.inputs.port.kind = 'unplugged';
    await byId('capture-start').click();
    await expect.element(problem).toHaveTextContent(/\S/);
    await expect.poll(() => shown(parts.capturing)).toMatchObject({ rounds: 6 });
    parts.inputs.port.kind = 'ready';
    await expect.element(problem).toHaveTextContent('');
  });

  it('has pads for whoever has no kit, and says what is missing', async () => {
    const { inputs } = await mountShell('#capture', ({ inputs }) => {
      inputs.port.kind = 'no device';
    });
    await expect.element(byId('no-kit').getByRole('link')).toHaveAttribute('href', '#kit');
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
    await expect.element(byId('simulated')).toHaveTextContent(session.phrase!.title);
    await page.getByLabelText(PLAYER_NAMES.kit, { exact: true }).click();
    expect(inputs.player).toBe('kit');
    expect(byId('simulated').query()).toBeNull();
    await expect.element(page.getByLabelText(PLAYER_NAMES['simulated player'])).toBeVisible();
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
    const { capturing } = parts;
    await expect.poll(() => shown(capturing)).toMatchObject({ rounds: 4 });
    const before = byId('played-before').getByRole('button', { pressed: false });
    await before.click();
    await expect.poll(() => shown(capturing)).toMatchObject({ rounds: 8 });
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
    await byId('played-before')
      .getByRole('button', { name: takeWords(capturing.plays[0]!) })
      .click();
    await expect.poll(() => shown(capturing)).toMatchObject({ rounds: 6 });
    expect(capturing.plays).toHaveLength(1);
    expect(byId('played-before').query()).toBeNull();
  });

  it('says that what was played goes with the page when there is no room for it', async () => {
    const parts = await mountShell('#capture');
    parts.capturing.stored.problem = storeProblem('FULL');
    await playFiveOars(parts, 6);
    await expect.element(byId('not-kept')).toHaveTextContent(storeProblem('FULL').message);
    await expect.poll(() => shown(parts.capturing)).toMatchObject({ rounds: 6 });
  });

  it('says of what was played before whether it was cut short', async () => {
    const stored = new StubCaptureStore();
    const { capturing } = await mountShell('#capture', async (parts) => {
      const { session, inputs, calibration } = parts;
      const open = () => new StubCapturing(session, inputs, calibration, stored);
      const killed = open();
      await playFiveOars({ ...parts, capturing: killed }, 6, 'still playing');
      await expect.poll(() => stored.records.size).toBe(1);
      killed.pass(500);
      Object.assign(parts, { capturing: open() });
      await parts.capturing.load();
    });
    expect(capturing.plays.map(({ isCutShort }) => isCutShort)).toEqual([true]);
    await byId('played-before')
      .getByRole('button', { name: takeWords(capturing.plays[0]!) })
      .click();
    await expect.poll(() => shown(capturing)).toMatchObject({ rounds: 6 });
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
    await expect.element(byId('capture-problem')).toHaveTextContent('harbour.mid');
    const take = await fetch(new URL('../../../shared/takes/take-08.mid', import.meta.url));
    await byId('file-to-read').upload(new File([await take.blob()], 'baiao.mid'));
    // 95 bpm: the dataset's table (F), shared/takes/README.md.
    await expect.poll(() => shown(capturing)).toMatchObject({ bpm: 95 });
    await expect.element(byId('what-was-played')).toHaveTextContent('baiao.mid');
    await expect.element(byId('outcome-of')).toHaveTextContent('baiao.mid');
    await expect.element(byId('captured-title')).toHaveValue('baiao');
    expect(capturing.problem).toBeUndefined();
  });
});
