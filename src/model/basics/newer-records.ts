/** Records that a newer program wrote: they are left alone, and the error says so. */

const SAYS = "newer records: ";

/** The error thrown before anything is written. `whose`: "this stall's", "this fair's". */
export const newerRecords = (whose: string, written: number, known: number): Error =>
  new Error(
    `${SAYS}${whose} records are of version ${written}, and this program knows them up to ${known}. Run the newer program again.`,
  );

/** Whether an error is that one. Between objects and the front door an error keeps only its message. */
export const areNewerRecords = (error: unknown): boolean =>
  error instanceof Error && error.message.includes(SAYS);
