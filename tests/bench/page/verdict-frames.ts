/** When one stroke's verdict was on the lane. */
export interface ShownVerdict {
  /** From the event to the end of drawing of the frame that shows it, ms. */
  readonly tookMs: number;
  /** 1 is the first frame after the event. */
  readonly frames: number;
}

/**
 * Strikes the virtual kit at each of the given times (ms on the page's clock) and looks at the lane's
 * pixels after every frame until the ink of a late stroke stands farther right than any before: new ink
 * stands at the playhead, and the strip only moves left. Timers can be slow, so a stroke has the time
 * it was meant for as its stamp, and is timed from when it was really sent. Runs in the page; uses
 * nothing outside itself.
 */
export async function verdictFrames(strikeAtMs: readonly number[]): Promise<ShownVerdict[]> {
  const lane = document.querySelector('canvas')!;
  const copy = document.createElement('canvas');
  copy.width = lane.width;
  copy.height = lane.height;
  const ctx = copy.getContext('2d', { alpha: false, willReadFrequently: true })!;
  const probe = document.createElement('span');
  lane.after(probe);
  probe.style.color = 'var(--late)';
  const [red, green, blue] = getComputedStyle(probe).color.match(/\d+/g)!.map(Number);
  probe.remove();

  const farthestLateInk = (): number => {
    ctx.drawImage(lane, 0, 0);
    const { data } = ctx.getImageData(0, 0, copy.width, copy.height);
    let farthest = -1;
    for (let p = 0; p < data.length; p += 4)
      if (data[p] === red && data[p + 1] === green && data[p + 2] === blue)
        farthest = Math.max(farthest, (p / 4) % copy.width);
    return farthest;
  };
  const nextFrame = <T>(look: (endMs: number) => T | undefined): Promise<T> =>
    new Promise((resolve) => {
      window.pageFrames.afterFrame = (endMs) => {
        const seen = look(endMs);
        if (seen === undefined) return false;
        resolve(seen);
        return true;
      };
    });
  const until = (ms: number) =>
    new Promise((resolve) => setTimeout(resolve, ms - performance.now()));

  const shown: ShownVerdict[] = [];
  for (const atMs of strikeAtMs) {
    await until(atMs - 60);
    const before = await nextFrame(() => farthestLateInk());
    await until(atMs);
    const struckMs = performance.now();
    window.fakeMidi.emit('kit', [0x99, 38, 80], atMs);
    let frames = 0;
    shown.push(
      await nextFrame((endMs) => {
        frames++;
        if (frames > 30) return { tookMs: Infinity, frames: Infinity };
        return farthestLateInk() > before ? { tookMs: endMs - struckMs, frames } : undefined;
      }),
    );
  }
  return shown;
}
