import { afterEach, describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { midiOfPhrase } from '../../../src/exchange/midi-of-phrase';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { writeKit } from '../../../src/kit/parse-kit';
import { writeMxl } from '../../../src/notation/musicxml/mxl';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { layerScore } from '../../../src/notation/score/layer-score';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { checkPhrase, trustPhrase } from '../../../src/phrase/file/parse-phrase';
import { writeLink } from '../../../src/phrase/file/phrase-link';
import { writePhrases } from '../../../src/phrase/file/phrase-list';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import { RAW_DEFLATE } from '../../../src/practice/files/raw-deflate';
import { writeMidiFile } from '../../../src/take/write-midi-file';
import { beats } from '../../../src/time/beats';
import { parseMeter } from '../../../src/time/meter';
import { cleanup } from 'vitest-browser-svelte';
import { mountShell as mountAnother } from '../mount-shell';
import type { StubParts } from '../stub-parts';

afterEach(() => vi.restoreAllMocks());

/** The app on a store of its own, in place of the one that was there. */
const mountShell: typeof mountAnother = (...args) => {
  cleanup();
  return mountAnother(...args);
};

const EBB = trustPhrase(
  '{ "title": "Ebb", "meter": "4/4", "tempoBpm": 90, "subdivision": 4, "grouping": "R L L K", "layers": [{ "name": "Sticking" }] }',
);
const FLOOD: Phrase = { ...EBB, title: 'Flood', tempoBpm: 100 };
const QUICK_EBB: Phrase = { ...EBB, tempoBpm: 140 };

const fileOf = (content: BlobPart, name: string) => new File([content], name);
async function choose(content: BlobPart, name: string): Promise<void> {
  const input = page.getByLabelText(/^A file/);
  await expect.element(input).toBeEnabled();
  await input.upload(fileOf(content, name));
}
async function linkTo(phrases: readonly Phrase[]): Promise<string> {
  const link = await writeLink(phrases, location.href, RAW_DEFLATE);
  if (!link.ok) throw new Error(link.errors[0]!.message);
  return link.value;
}
const keeping =
  (...phrases: readonly Phrase[]) =>
  async ({ library }: StubParts) => {
    for (const [i, phrase] of phrases.entries())
      await library.save(`own-${i}`, new DraftCheck(draftOf(phrase)));
  };
const own = ({ library }: StubParts) =>
  library.phrases
    .filter((one) => one.own)
    .map(({ phrase }) => `${phrase.title} ${phrase.tempoBpm}`);

const opened = page.getByTestId('opened');
const problems = page.getByTestId('opening-problems').getByRole('listitem');
const notice = page.getByTestId('notice').last();

describe('a phrase file', () => {
  it('shows what is in it, is kept when that is said, and is gone to', async () => {
    const parts = await mountShell('#open');
    await choose(writePhrases([EBB]), 'ebb.json');
    await expect.element(page.getByRole('heading', { level: 2, name: 'ebb.json' })).toHaveFocus();
    await expect.element(opened.getByRole('heading', { level: 3 })).toHaveTextContent('Ebb');
    await expect.element(opened.getByTestId('score-line')).toBeVisible();
    expect(own(parts)).toEqual([]);
    await page.getByTestId('keep-phrases').click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Ebb' })).toBeVisible();
    await expect.element(notice).toHaveTextContent('Ebb is among your phrases now.');
    expect(own(parts)).toEqual(['Ebb 90']);
    expect(location.hash).toMatch(/^#phrases\/own-/);
  });

  it('is left, and nothing is kept', async () => {
    const parts = await mountShell('#open');
    await choose(writePhrases([EBB]), 'ebb.json');
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Phrases' })).toBeVisible();
    expect(own(parts)).toEqual([]);
    parts.route.go('open');
    await expect.element(page.getByTestId('file-to-open')).toBeVisible();
    expect(opened.query()).toBeNull();
  });

  it('tells the exact faults by file and place, and keeps nothing', async () => {
    const parts = await mountShell('#open');
    const adrift = { title: 'Adrift', meter: '4/3' };
    const checked = checkPhrase(adrift);
    await choose(JSON.stringify(adrift), 'adrift.json');
    await expect.element(problems.first()).toBeVisible();
    expect(problems.elements().map((one) => one.textContent)).toEqual(
      checked.ok ? [] : checked.errors.map(({ message }) => expect.stringContaining(message)),
    );
    await expect
      .element(problems.filter({ hasText: '4/3' }))
      .toHaveTextContent(/^adrift\.json, "meter": /);
    await choose(JSON.stringify({ phrases: [draftOf(EBB), adrift] }), 'two.json');
    await expect.element(problems.first()).toHaveTextContent(/^two\.json, phrase 2, "meter": /);
    expect(own(parts)).toEqual([]);
    await choose(writePhrases([EBB]), 'ebb.json');
    await expect.element(opened).toBeVisible();
    expect(problems.elements()).toEqual([]);
  });

  it.each([
    ['', /^x\.json: There is nothing in it/],
    ['hello', /^x\.json: It is nothing that can be opened here/],
    ['{"title":"Ebb"', /^x\.json: This is no phrase file in JSON, since it breaks|ends/],
    [
      Uint8Array.of(0x7b, 0x22, 0x74, 0x69, 0x74, 0x6c, 0x65, 0x22, 0x3a, 0xff),
      /not text in UTF-8/,
    ],
    [Uint8Array.of(0x4d, 0x54, 0x68, 0x64, 0, 0), /^x\.json: /],
    [Uint8Array.of(0x1f, 0x8b, 8, 0), /^x\.json: This file is none that this page saved/],
  ])('%j is told', async (content, sentence) => {
    await mountShell('#open');
    await choose(content, 'x.json');
    await expect.element(problems.first()).toHaveTextContent(sentence);
  });

  it('shows markup in a title as text', async () => {
    const parts = await mountShell('#open');
    const title = '<img src=x onerror="document.title=1"> <b>Ebb</b>';
    await choose(writePhrases([{ ...EBB, title }]), 'ebb.json');
    await expect.element(opened.getByRole('heading', { level: 3 })).toHaveTextContent(title);
    expect(opened.element().querySelector('img, b')).toBeNull();
    await page.getByTestId('keep-phrases').click();
    await expect.element(notice).toHaveTextContent(`${title} is among your phrases now.`);
    expect(document.querySelector('main img, .notice img')).toBeNull();
    expect(own(parts)).toEqual([`${title} 90`]);
  });
});

describe('a phrase that has a namesake here', () => {
  it('is told when it is the very same', async () => {
    const parts = await mountShell('#open', keeping(EBB));
    await choose(writePhrases([EBB]), 'ebb.json');
    await expect.element(opened).toHaveTextContent(/This very phrase is here already/);
    await page.getByTestId('go-to-phrases').click();
    await expect.element(notice).toHaveTextContent('Ebb was here already.');
    expect(location.hash).toBe('#phrases/own-0');
    expect(own(parts)).toEqual(['Ebb 90']);
  });

  it.each([
    ['keep both', ['Ebb 90', 'Ebb, 2 140'], 'Ebb, 2 is among your phrases now.'],
    ['put this one in the place of mine', ['Ebb 140'], 'Ebb is replaced.'],
  ])('is asked about: %s', async (answer, titles, words) => {
    const parts = await mountShell('#open', keeping(EBB));
    await choose(writePhrases([QUICK_EBB]), 'ebb.json');
    await expect.element(opened).toHaveTextContent(/You have another phrase called “Ebb”/);
    await opened.getByLabelText(answer).click();
    await page.getByTestId('keep-phrases').click();
    await expect.element(notice).toHaveTextContent(words);
    expect(own(parts).sort()).toEqual(titles);
  });

  it('takes the place of one that is being written, as an edit that is undone there', async () => {
    const parts = await mountShell('#open', keeping(EBB));
    const composition = parts.compositions.open('own-0')!;
    composition.edit((draft) => ({ ...draft, tempoBpm: 95 }));
    await choose(writePhrases([QUICK_EBB]), 'ebb.json');
    await opened.getByLabelText('put this one').click();
    await page.getByTestId('keep-phrases').click();
    await expect.element(notice).toHaveTextContent('Ebb is replaced.');
    expect(composition.draft.tempoBpm).toBe(140);
    composition.undo();
    expect(composition.draft.tempoBpm).toBe(95);
  });

  it('is never put in the place of one that comes with the app', async () => {
    const parts = await mountShell('#open');
    const { phrase } = parts.library.find('quay-steps')!;
    await choose(writePhrases([{ ...phrase, tempoBpm: 61 }]), 'quay.json');
    await expect.element(opened).toHaveTextContent(/“Quay Steps” comes with the app/);
    expect(opened.getByLabelText('put this one').query()).toBeNull();
    await page.getByTestId('keep-phrases').click();
    await expect.element(notice).toHaveTextContent('Quay Steps, 2 is among your phrases now.');
  });
});

describe('several phrases in one file', () => {
  it('are kept as each is answered, and told', async () => {
    const parts = await mountShell('#open', keeping(EBB, FLOOD));
    const spring = { ...EBB, title: 'Spring' };
    const neap = { ...EBB, title: 'Neap' };
    await choose(
      writePhrases([QUICK_EBB, FLOOD, spring, neap, { ...neap, tempoBpm: 50 }]),
      'x.json',
    );
    await expect.element(opened).toHaveTextContent(/5 phrases\./);
    const row = (title: string) => opened.getByTestId('phrase-in-file').filter({ hasText: title });
    await row('Ebb').getByLabelText('skip this one').click();
    await row('Spring').getByLabelText('Keep Spring').click();
    await expect.element(page.getByTestId('keep-phrases')).toHaveTextContent('Keep 2 phrases');
    await page.getByTestId('keep-phrases').click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Phrases' })).toBeVisible();
    await expect
      .element(notice)
      .toHaveTextContent(
        'Neap and Neap, 2 are among your phrases now. Flood was here already. Ebb and Spring were left.',
      );
    expect(own(parts).sort()).toEqual(['Ebb 90', 'Flood 100', 'Neap 90', 'Neap, 2 50']);
  });
});

describe('a link', () => {
  it('shows what is in it and keeps nothing by itself', async () => {
    location.hash = '#phrases';
    const link = await linkTo([EBB]);
    const parts = await mountShell(new URL(link).hash);
    await expect.element(opened.getByRole('heading', { level: 3 })).toHaveTextContent('Ebb');
    expect(own(parts)).toEqual([]);
    await page.getByTestId('keep-phrases').click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Ebb' })).toBeVisible();
    expect(own(parts)).toEqual(['Ebb 90']);
  });

  it('is pasted whole, alone or in a letter, and the text of a file as well', async () => {
    location.hash = '#phrases';
    const link = await linkTo([EBB, FLOOD]);
    for (const text of [
      link,
      link.split('#open/')[1]!,
      `Look: ${link} !`,
      writePhrases([EBB, FLOOD]),
    ]) {
      await mountShell('#open');
      await page.getByTestId('link-to-open').fill(text);
      await userEvent.keyboard('{Enter}');
      await expect.element(opened).toHaveTextContent(/2 phrases\./);
    }
  });

  it('that is cut off is told, at its address and pasted', async () => {
    location.hash = '#phrases';
    const cut = (await linkTo([EBB])).slice(0, -9);
    await mountShell(new URL(cut).hash);
    await expect.element(problems.first()).toHaveTextContent(/^The link: It is cut off or damaged/);
    await page.getByTestId('link-to-open').fill(cut);
    await page.getByRole('button', { name: 'Open the link' }).click();
    await expect.element(problems.first()).toHaveTextContent(/^What was pasted: It is cut off/);
    await page.getByTestId('link-to-open').fill('http://localhost:4173/#phrases/quay-steps');
    await page.getByRole('button', { name: 'Open the link' }).click();
    await expect.element(problems.first()).toHaveTextContent(/^What was pasted: It is nothing/);
  });
});

describe('a link that is copied', () => {
  const dialog = page.getByTestId('link-dialog');
  const field = page.getByTestId('link-field');

  it('is told, and opens what it was made of', async () => {
    const copied: string[] = [];
    vi.spyOn(navigator.clipboard, 'writeText').mockImplementation(async (text) => {
      copied.push(text);
    });
    await mountShell('#phrases/quay-steps');
    await page.getByTestId('copy-link').click();
    await expect.element(dialog).toHaveTextContent(/The link is copied/);
    expect(copied).toEqual([(field.element() as HTMLInputElement).value]);
    await page.getByRole('button', { name: 'Close' }).click();
    await expect.element(dialog).not.toBeInTheDocument();
    await mountShell(new URL(copied[0]!).hash);
    await expect.element(opened).toHaveTextContent(/This very phrase is here already/);
  });

  it('is selected where the browser does not let it be copied', async () => {
    vi.spyOn(navigator.clipboard, 'writeText').mockRejectedValue(new DOMException('no'));
    await mountShell('#phrases/quay-steps');
    await page.getByTestId('copy-link').click();
    await expect.element(dialog).toHaveTextContent(/did not let it be copied/);
    await expect.element(field).toHaveFocus();
    const input = field.element() as HTMLInputElement;
    expect(input.value.slice(input.selectionStart!, input.selectionEnd!)).toBe(input.value);
  });

  it('is shown as a code where it is short enough, and only then', async () => {
    vi.spyOn(navigator.clipboard, 'writeText').mockResolvedValue();
    await mountShell('#phrases');
    await page.getByLabelText('Choose Quay Steps').click();
    await page.getByTestId('copy-link').click();
    await page.getByTestId('show-code').click();
    await expect
      .element(page.getByRole('img', { name: /^The link to Quay Steps as a code/ }))
      .toBeVisible();
    await page.getByRole('button', { name: 'Close' }).click();
    await page.getByLabelText('Choose all phrases').click();
    await page.getByTestId('copy-link').click();
    await expect.element(dialog).toHaveTextContent(/codes of up to 1,000 characters/);
    expect(page.getByTestId('show-code').query()).toBeNull();
  });

  it('leaves the space bar and Escape to itself', async () => {
    vi.spyOn(navigator.clipboard, 'writeText').mockResolvedValue();
    const parts = await mountShell('#practise');
    await page.getByTestId('copy-link').click();
    // The link is made after the dialog is there.
    await expect.element(field).toBeVisible();
    (field.element() as HTMLElement).focus();
    await userEvent.keyboard(' ');
    expect(parts.session.status).toBe('idle');
    parts.session.status = 'playing';
    await userEvent.keyboard('{Escape}');
    await expect.element(dialog).not.toBeInTheDocument();
    expect(parts.session.status).toBe('playing');
  });
});

describe('other files, at the same place', () => {
  const notes = (count: number, status = 0x99) =>
    new Uint8Array(
      writeMidiFile({
        messages: Array.from({ length: count }, (_, i) => ({
          timeUs: i * 250_000,
          status,
          data1: 38,
          data2: 80,
        })),
        tempos: [{ fromBeat: beats(0), bpm: 120 }],
        meter: parseMeter('4/4')!,
        countInBars: 0,
      }),
    );

  it('a kit is shown, kept and chosen', async () => {
    const parts = await mountShell('#open');
    await choose(writeKit({ ...EDGE_AND_RIM, title: 'Boathouse' }), 'kit.json');
    await expect.element(opened).toHaveTextContent(/The kit “Boathouse”, \d+ notes\./);
    await page.getByTestId('keep-kit').click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Kit' })).toBeVisible();
    await expect.element(notice).toHaveTextContent('Boathouse is kept and chosen.');
    expect(parts.inputs.saved?.title).toBe('Boathouse');
  });

  it.each([
    ['keep both', 'Boathouse, 2'],
    ['put this one in the place of mine', 'Boathouse'],
  ])('a kit with a namesake is asked about: %s', async (answer, title) => {
    const parts = await mountShell('#open', ({ inputs }) => {
      inputs.kits = [...inputs.kits, { ...GENERAL_MIDI, title: 'Boathouse' }];
    });
    await choose(writeKit({ ...EDGE_AND_RIM, title: 'Boathouse' }), 'kit.json');
    await opened.getByLabelText(answer).click();
    await page.getByTestId('keep-kit').click();
    await expect.poll(() => parts.inputs.saved?.title).toBe(title);
  });

  it('a kit that comes with the app is told', async () => {
    await mountShell('#open');
    await choose(writeKit(GENERAL_MIDI), 'kit.json');
    await expect.element(opened).toHaveTextContent(/This very kit is here already/);
    await choose(writeKit({ ...EDGE_AND_RIM, title: GENERAL_MIDI.title }), 'kit.json');
    await expect.element(opened).toHaveTextContent(/comes with the app/);
    expect(opened.getByLabelText('put this one').query()).toBeNull();
  });

  it('a MIDI file is written down or played', async () => {
    const parts = await mountShell('#open');
    const read = vi.spyOn(parts.capturing, 'readFile');
    await choose(notes(16), 'quay.mid');
    await expect
      .element(opened)
      .toHaveTextContent(/16 strokes in 0:03, at 120 quarters a minute\./);
    await page.getByTestId('write-it-down').click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Capture' })).toBeVisible();
    expect(read.mock.calls.map(([file]) => file.name)).toEqual(['quay.mid']);
    parts.route.go('open');
    await choose(notes(4), 'quay.mid');
    await page.getByTestId('play-it').click();
    await expect.element(page.getByTestId('start')).toBeVisible();
    await expect.element(notice).toHaveTextContent('quay.mid plays in place of the kit');
  });

  it('a MIDI file without a phrase says so, and stays to be played', async () => {
    await mountShell('#open');
    await choose(notes(4, 0x90), 'harp.mid');
    await page.getByTestId('written-phrase').click();
    await expect.element(problems).toHaveTextContent(/^harp\.mid: It has no notes on channel 10/);
    await expect.element(page.getByTestId('play-it')).toBeEnabled();
    await choose(notes(4), 'quay.mid');
    await expect.element(page.getByRole('heading', { level: 2 })).toHaveTextContent('quay.mid');
    expect(problems.query()).toBeNull();
  });
});

describe('music of other software', () => {
  it('a score is read as a phrase, and kept when that is said', async () => {
    const parts = await mountShell('#open');
    const score = writeMusicXml([layerScore(EBB, 1, 2)]);
    await choose(score, 'ebb.musicxml');
    await expect.element(opened.getByRole('heading', { level: 3 })).toHaveTextContent('Ebb');
    await page.getByTestId('keep-phrases').click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Ebb' })).toBeVisible();
    expect(own(parts)).toEqual(['Ebb 90']);
    parts.route.go('open');
    await choose(Uint8Array.from(writeMxl([layerScore(FLOOD, 1)])), 'flood.mxl');
    await expect.element(opened.getByRole('heading', { level: 3 })).toHaveTextContent('Flood');
    expect(page.getByTestId('remarks').query()).toBeNull();
  });

  it('says of a score what is the matter with it', async () => {
    await mountShell('#open');
    await choose('<?xml version="1.0"?><recipe/>', 'soup.xml');
    await expect.element(problems).toHaveTextContent(/^soup\.xml: This XML begins with "recipe"/);
    await choose(new Uint8Array([0x50, 0x4b, 3, 4, 0]), 'x.zip');
    await expect.element(problems).toHaveTextContent(/^x\.zip: /);
  });

  it('a phrase that was written as MIDI is looked at and kept', async () => {
    const parts = await mountShell('#open');
    await choose(Uint8Array.from(midiOfPhrase(EBB)), 'ebb.mid');
    await page.getByTestId('written-phrase').click();
    await expect.element(opened.getByRole('heading', { level: 3 })).toHaveTextContent('Ebb');
    await page.getByTestId('keep-phrases').click();
    await expect.element(page.getByRole('heading', { level: 1, name: 'Ebb' })).toBeVisible();
    expect(own(parts)).toEqual(['Ebb 90']);
  });
});

describe('a file that is dropped', () => {
  const dragged = (type: string, file?: File) => {
    const dataTransfer = new DataTransfer();
    if (file) dataTransfer.items.add(file);
    else dataTransfer.setData('text/plain', 'words');
    const event = new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true });
    document.querySelector('main')!.dispatchEvent(event);
    return event;
  };

  it('is opened from any screen; where it can be dropped is shown meanwhile', async () => {
    await mountShell('#help');
    await expect.element(page.getByRole('heading', { level: 1, name: 'Help' })).toBeVisible();
    const target = page.getByTestId('drop-target');
    const file = fileOf(writePhrases([EBB]), 'ebb.json');
    await expect.poll(() => dragged('dragenter', file).defaultPrevented).toBe(true);
    await expect.element(target).toHaveTextContent('Drop the file anywhere to open it');
    dragged('dragleave', file);
    await expect.element(target).not.toBeInTheDocument();
    dragged('dragover', file);
    await expect.element(target).toBeVisible();
    dragged('drop', file);
    await expect.element(target).not.toBeInTheDocument();
    await expect.element(page.getByRole('heading', { level: 2, name: 'ebb.json' })).toBeVisible();
    expect(location.hash).toBe('#open');
  });

  it('leads to where files are opened also where that cannot be fetched', async () => {
    const parts = await mountShell('#help');
    parts.complete = () => Promise.reject(new Error('gone'));
    const open = vi.spyOn(parts.opening, 'open');
    const file = fileOf(writePhrases([EBB]), 'ebb.json');
    await expect.poll(() => dragged('dragenter', file).defaultPrevented).toBe(true);
    dragged('drop', file);
    await expect.poll(() => location.hash).toBe('#open');
    expect(open).not.toHaveBeenCalled();
  });

  it('is another matter than a text that is dragged', async () => {
    await mountShell('#help');
    await expect.element(page.getByRole('heading', { level: 1, name: 'Help' })).toBeVisible();
    expect(dragged('dragover').defaultPrevented).toBe(false);
    expect(page.getByTestId('drop-target').query()).toBeNull();
  });
});
