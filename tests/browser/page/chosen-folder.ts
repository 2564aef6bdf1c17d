import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { chromiumPath } from '../../../.scripts/chromium.mjs';

/** What the player has answered, once and for all, where the browser asks whether a page may write into a folder. */
export type FolderAnswer = 'allowed' | 'denied';

/** As a browser keeps its answers. */
const SETTING = { allowed: 1, denied: 2 };

/**
 * A Chromium with a profile of its own, in which that answer is kept already: no question of the browser's own can be
 * seen or pressed by a test. `folder` is a real one of this machine.
 */
export async function chromiumWithFolder(
  profile: string,
  folder: string,
  { origin, answer }: { readonly origin: string; readonly answer: FolderAnswer },
) {
  const of = (setting: unknown) => ({ [`${origin},*`]: { setting } });
  const chosen = {
    path: folder,
    'display-name': 'folder',
    'is-directory': true,
    readable: true,
    writable: true,
  };
  const exceptions =
    answer === 'allowed'
      ? {
          file_system_access_extended_permission: of(SETTING.allowed),
          file_system_access_chooser_data: of({ 'chosen-objects': [chosen] }),
        }
      : {
          file_system_read_guard: of(SETTING.denied),
          file_system_write_guard: of(SETTING.denied),
        };
  mkdirSync(join(profile, 'Default'), { recursive: true });
  writeFileSync(
    join(profile, 'Default', 'Preferences'),
    JSON.stringify({ profile: { content_settings: { exceptions } } }),
  );
  return chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath()!,
    chromiumSandbox: false,
    args: ['--mute-audio', '--disable-background-networking', '--disable-sync'],
  });
}

/** The folder that was dropped on the page stands in for the one that is chosen in the browser's own window. */
export const folderScript = (): string => `(${chooseWhatIsDropped.toString()})();`;

function chooseWhatIsDropped(): void {
  let take: (folder: unknown) => void;
  const dropped = new Promise((resolve) => (take = resolve));
  addEventListener('dragover', (event) => event.preventDefault(), true);
  addEventListener(
    'drop',
    (event) => {
      event.preventDefault();
      event.stopImmediatePropagation();
      const item = event.dataTransfer!.items[0] as unknown as {
        getAsFileSystemHandle(): Promise<unknown>;
      };
      void item.getAsFileSystemHandle().then(take);
    },
    true,
  );
  Object.assign(window, { showDirectoryPicker: () => dropped });
}

/** Drops a folder of this machine on the page. */
export async function dropFolder(page: Page, folder: string): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const data = { items: [], files: [folder], dragOperationsMask: 1 };
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
    await session.send('Input.dispatchDragEvent', { type, x: 200, y: 200, data });
}
