/**
 * Asks the browser not to clear this page's data when space runs short, or, in some browsers, after
 * a week without a visit. False also where it cannot be asked.
 */
export async function askToPersist(
  storage: Partial<StorageManager> | undefined = navigator.storage,
): Promise<boolean> {
  try {
    if (await storage?.persisted?.()) return true;
    return (await storage?.persist?.()) ?? false;
  } catch {
    return false;
  }
}
