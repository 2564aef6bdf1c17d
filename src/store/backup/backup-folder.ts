import { openDB, type IDBPDatabase } from 'idb';
import { LATE, within } from '../../clock/deadline';
import { bad, good, type Result } from '../../time/result';

/** A folder as the File System Access API has it; not every browser does. */
export interface Folder {
  readonly name: string;
  queryPermission(wish: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission(wish: { mode: 'readwrite' }): Promise<PermissionState>;
  getFileHandle(
    name: string,
    options: { create: true },
  ): Promise<{
    createWritable(): Promise<{
      write(content: Blob): Promise<void>;
      close(): Promise<void>;
      abort(): Promise<void>;
    }>;
  }>;
}

const MESSAGES = {
  NOT_ALLOWED: 'The browser does not let this page write into the folder. Press to allow it again.',
  FOLDER_GONE:
    'The folder is not there any more, or its disk is away. Choose it again, or another.',
  NOT_WRITTEN:
    'The backup could not be written into the folder: its disk is full, or cannot be written to.',
  FOLDER_SILENT:
    'The folder does not answer; its disk may be asleep or away. It is tried again later.',
} as const;

/** Why no backup stands in the folder. */
export interface FolderProblem {
  readonly code: keyof typeof MESSAGES;
  readonly message: string;
}

const problem = (code: keyof typeof MESSAGES): FolderProblem => ({ code, message: MESSAGES[code] });

/** A folder holds for one browser and goes into no backup, so it has a database of its own. */
const NAME = 'layered-phrases.folder';
const TABLE = 'folders';
const KEY = 'backups';
/** Chosen: nobody waits longer for a folder that may be nothing. */
const ANSWERS_WITHIN_MS = 5000;
/** Chosen: a large backup on a slow stick. */
const WRITES_WITHIN_MS = 120_000;

/** The folder that the player has chosen for backups; undefined where there is none, or it cannot be told. */
export const storedFolder = (name = NAME): Promise<Folder | undefined> =>
  inFolders(name, (database) => database.get(TABLE, KEY) as Promise<Folder | undefined>);

/** Remembers a folder, or forgets the one there was. */
export const rememberFolder = (folder: Folder | undefined, name = NAME): Promise<unknown> =>
  inFolders(name, (database) =>
    folder ? database.put(TABLE, folder, KEY).then(() => undefined) : database.delete(TABLE, KEY),
  );

async function inFolders<T>(
  name: string,
  work: (database: IDBPDatabase) => Promise<T>,
): Promise<T | undefined> {
  const working = openDB(name, 1, {
    upgrade: (database) => void database.createObjectStore(TABLE),
  }).then(async (database) => {
    try {
      return await work(database);
    } finally {
      database.close();
    }
  });
  const answer = await within(
    ANSWERS_WITHIN_MS,
    working.catch(() => undefined),
  );
  return answer === LATE ? undefined : answer;
}

/** Whether the folder may be written to without a question. */
export async function isAllowed(folder: Folder): Promise<boolean> {
  return (await folder.queryPermission({ mode: 'readwrite' })) === 'granted';
}

/** Writes a file into the folder: whole, or the one of that name stays as it was. */
export async function writeInFolder(
  folder: Folder,
  fileName: string,
  content: Blob,
): Promise<Result<void, FolderProblem>> {
  const writing = write(folder, fileName, content).then(
    () => good(undefined),
    (error: unknown) => bad(problem(codeOf(error))),
  );
  const written = await within(WRITES_WITHIN_MS, writing);
  return written === LATE ? bad(problem('FOLDER_SILENT')) : written;
}

async function write(folder: Folder, fileName: string, content: Blob): Promise<void> {
  const file = await folder.getFileHandle(fileName, { create: true });
  // The browser writes beside the file and puts it in its place when it is closed.
  const stream = await file.createWritable();
  try {
    await stream.write(content);
  } catch (error) {
    await stream.abort().catch(() => undefined);
    throw error;
  }
  await stream.close();
}

function codeOf(error: unknown): FolderProblem['code'] {
  const name = error instanceof Error ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'NOT_ALLOWED';
  return name === 'NotFoundError' ? 'FOLDER_GONE' : 'NOT_WRITTEN';
}
