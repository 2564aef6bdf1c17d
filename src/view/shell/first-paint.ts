/** Settles once what is on the page now has been painted; in a hidden page, which is not painted, soon. */
export const firstPaint = (): Promise<void> =>
  new Promise((painted) => {
    const afterFrame = () => setTimeout(painted);
    if (document.visibilityState === 'visible') requestAnimationFrame(afterFrame);
    else afterFrame();
  });
