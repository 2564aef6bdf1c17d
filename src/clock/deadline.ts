/** What did not settle in time is `late`; it goes on by itself, and what becomes of it is for whoever holds the promise. */
export const LATE = Symbol('late');

/** @param ms from now, milliseconds. */
export async function within<T>(ms: number, promise: Promise<T>): Promise<T | typeof LATE> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<typeof LATE>((resolve) => {
    timer = setTimeout(() => resolve(LATE), ms);
  });
  try {
    return await Promise.race([promise, late]);
  } finally {
    clearTimeout(timer);
  }
}
