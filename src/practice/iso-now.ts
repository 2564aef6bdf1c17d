/** The date and time, ISO 8601, of the machine's own clock. */
export const isoNow = (): string => new Date(Date.now()).toISOString();
