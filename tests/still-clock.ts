/** `expect.poll` moves a faked clock on by its interval each time it looks; with these options the clock stands. */
export const ON_A_STILL_CLOCK = { interval: 0 };
