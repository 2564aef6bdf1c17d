/** Why there is no sheet, in sentences that say what to do. */
export const SHEET_FAILURES = {
  notStarted:
    'The engraver of the sheet could not be fetched or started: the connection is gone, or there is too little memory. Close other pages, or reload this one.',
  hung: 'The sheet took too long and was given up. Ask for fewer bars, or for one layer.',
  failed: (why: string) =>
    `The sheet could not be engraved (${why}). Ask for fewer bars, or for one layer.`,
} as const;
