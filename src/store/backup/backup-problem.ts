const MESSAGES = {
  NOT_A_BACKUP:
    'This file is none that this page saved. Choose a backup, or a take that was downloaded as JSON.',
  DAMAGED_BACKUP:
    'This backup is damaged or cut off: its checksum does not fit. Nothing was taken from it; choose another copy.',
  NEWER_BACKUP:
    'This backup was saved by a newer version of this page. Reload the page to get that version, then choose the file again.',
  TOO_LARGE:
    'This file holds more than a backup can. Nothing was taken from it; choose a file that this page saved.',
  TOO_MUCH_KEPT:
    'More is kept here than fits into one backup. Delete takes in the log that you have downloaded, then try again.',
  FILE_UNREADABLE:
    'The file cannot be read: it was moved or changed, or its disk does not answer. Choose it again.',
  NO_GZIP: 'This browser is too old to pack a backup. Update it, or use another.',
} as const;

export type BackupProblemCode = keyof typeof MESSAGES;

/** Why there is no backup, or none that can be put back. */
export interface BackupProblem {
  readonly code: BackupProblemCode;
  readonly message: string;
}

/** @example backupProblem('NO_GZIP').code // => 'NO_GZIP' */
export const backupProblem = (code: BackupProblemCode): BackupProblem => ({
  code,
  message: MESSAGES[code],
});
