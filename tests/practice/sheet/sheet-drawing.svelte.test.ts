import { describe, expect, it, vi } from 'vitest';
import type { SheetPicture } from '../../../src/notation/sheet/engrave-sheet';
import { FIRST_SHEET_CHOICES, readSheetChoices } from '../../../src/practice/sheet/sheet-choices';
import { SheetDrawing } from '../../../src/practice/sheet/sheet-drawing.svelte';
import { SHEET_FAILURES } from '../../../src/practice/sheet/sheet-failures';
import type { SheetJob } from '../../../src/practice/sheet/sheet-job';
import type { EngraverThread } from '../../../src/practice/sheet/kept-engraver';
import { sheetThread } from '../../../src/practice/sheet/sheet-thread';
import { Sheets } from '../../../src/practice/sheet/sheets.svelte';
import { SETTINGS_PREFIX, SettingsStore } from '../../../src/store/settings-store';
import { A4_AT_A_DESK } from '../../notation/a4-at-a-desk';
import { layeredPhrase } from '../../phrase/phrase-of';

const phrase = layeredPhrase({ grouping: 'R L L' }, [
  { where: { limb: 'R' }, set: { level: 'accent' } },
]);
const request = (layers: readonly number[]) => ({ phrase, layers, bars: 1, look: A4_AT_A_DESK });

type Told = (picture: SheetPicture | { problem: string }) => void;

/** A worker that a test answers for. */
class StubWorker implements EngraverThread {
  onmessage: EngraverThread['onmessage'] = null;
  onerror: EngraverThread['onerror'] = null;
  readonly jobs: SheetJob[] = [];
  ended = false;
  postMessage = (job: SheetJob) => void this.jobs.push(job);
  terminate = () => void (this.ended = true);
  answer: Told = (told) => this.onmessage!({ data: 'problem' in told ? told : { picture: told } });
  engraved() {
    const { layer } = this.jobs.at(-1)!;
    this.answer({ layer, layerName: `layer ${layer}`, lines: [], glyphs: {} });
  }
}

function stubbed(longestMs = 10_000) {
  const workers: StubWorker[] = [];
  const thread = sheetThread(() => {
    const worker = new StubWorker();
    workers.push(worker);
    return worker;
  }, longestMs);
  return { workers, thread, drawing: new SheetDrawing(thread) };
}

const settle = () => new Promise((resolve) => setTimeout(resolve));

describe('a sheet while it is drawn', () => {
  it('comes layer by layer', async () => {
    const { workers, drawing } = stubbed();
    const done = drawing.draw(request([1, 2]));
    expect(drawing.isDrawing).toBe(true);
    await settle();
    workers[0]!.engraved();
    await settle();
    expect(drawing.pictures.map(({ layer }) => layer)).toEqual([1]);
    workers[0]!.engraved();
    await done;
    expect(drawing.pictures.map(({ layer }) => layer)).toEqual([1, 2]);
    expect([drawing.isDrawing, drawing.problem, workers.length]).toEqual([false, undefined, 1]);
  });

  it('goes on where another one was ended at the same moment', async () => {
    const { workers, thread, drawing } = stubbed();
    const next = new SheetDrawing(thread);
    void drawing.draw(request([1]));
    drawing.close();
    const done = next.draw(request([2]));
    await settle();
    expect(workers.map(({ ended }) => ended)).toEqual([true, false]);
    workers[1]!.engraved();
    await done;
    expect(next.pictures.map(({ layer }) => layer)).toEqual([2]);
  });

  it('tells the layer that is engraved, also where there is an older sheet', async () => {
    const { workers, drawing } = stubbed();
    const older = drawing.draw(request([3]));
    expect(drawing.layer).toBe(3);
    workers[0]!.engraved();
    await older;
    expect(drawing.layer).toBeUndefined();
    const done = drawing.draw(request([1, 2]));
    expect(drawing.layer).toBe(1);
    workers[0]!.engraved();
    await settle();
    expect(drawing.layer).toBe(2);
    workers[0]!.engraved();
    await done;
  });

  it('is the one that was asked for last', async () => {
    const { workers, drawing } = stubbed();
    const first = drawing.draw(request([1, 2]));
    await settle();
    void drawing.draw(request([2]));
    workers[0]!.engraved();
    await settle();
    expect(drawing.pictures).toEqual([]);
    workers[0]!.engraved();
    await first;
    expect(drawing.pictures.map(({ layer }) => layer)).toEqual([2]);
    expect(workers[0]!.jobs.map(({ layer }) => layer)).toEqual([1, 2]);
  });

  it('what hangs is ended, and told; the next one is drawn anew', async () => {
    const { workers, drawing } = stubbed(20);
    await drawing.draw(request([1]));
    expect([drawing.problem, drawing.isDrawing]).toEqual([SHEET_FAILURES.hung, false]);
    expect(workers[0]!.ended).toBe(true);
    const again = drawing.draw(request([1]));
    await settle();
    workers[1]!.engraved();
    await again;
    expect([drawing.problem, drawing.pictures.length]).toEqual([undefined, 1]);
  });

  it('a worker that does not start is told', async () => {
    const { workers, drawing } = stubbed();
    const done = drawing.draw(request([1]));
    await settle();
    workers[0]!.onerror!();
    await done;
    expect(drawing.problem).toBe(SHEET_FAILURES.notStarted);
  });

  it('and so is what cannot be engraved', async () => {
    const { workers, drawing } = stubbed();
    const done = drawing.draw(request([1]));
    await settle();
    workers[0]!.answer({ problem: 'out of memory' });
    await done;
    expect(drawing.problem).toBe(SHEET_FAILURES.failed('out of memory'));
    expect(workers[0]!.ended).toBe(true);
  });

  it('nobody looks at any more is ended', async () => {
    const { workers, drawing } = stubbed();
    const done = drawing.draw(request([1, 2]));
    await settle();
    drawing.close();
    await done;
    expect(workers[0]!.ended).toBe(true);
    expect([drawing.pictures.length, drawing.isDrawing, workers.length]).toEqual([0, false, 1]);
  });
});

describe('sheets', () => {
  it('keep what was chosen, and take nothing for it that is damaged', () => {
    const storage = localStorage;
    const settings = new SettingsStore(storage);
    const sheets = new Sheets(settings, stubbed().thread);
    expect(sheets.choices).toEqual(FIRST_SHEET_CHOICES);
    sheets.choose({ paper: 'Letter', bars: 3 });
    expect(readSheetChoices(new SettingsStore(storage))).toMatchObject({
      paper: 'Letter',
      bars: 3,
    });
    for (const bars of [0, 65, 1.5]) {
      const damaged = { ...FIRST_SHEET_CHOICES, bars };
      storage.setItem(`${SETTINGS_PREFIX}sheet`, JSON.stringify(damaged));
      expect(readSheetChoices(settings)).toEqual(FIRST_SHEET_CHOICES);
    }
    storage.removeItem(`${SETTINGS_PREFIX}sheet`);
  });

  it('let the engraver go a minute after the last one', async () => {
    vi.useFakeTimers();
    const { thread, workers } = stubbed();
    const sheets = new Sheets(new SettingsStore(null), thread);
    const first = sheets.open();
    const done = first.draw(request([1]));
    workers[0]!.engraved();
    await done;
    sheets.leave(first);
    vi.advanceTimersByTime(59_000);
    expect(workers[0]!.ended).toBe(false);
    const second = sheets.open();
    vi.advanceTimersByTime(600_000);
    expect(workers[0]!.ended).toBe(false);
    const third = sheets.open();
    sheets.leave(second);
    vi.advanceTimersByTime(600_000);
    expect(workers[0]!.ended).toBe(false);
    sheets.leave(third);
    vi.advanceTimersByTime(60_000);
    expect(workers[0]!.ended).toBe(true);
    vi.useRealTimers();
  });
});
