/** Records that a newer program wrote: they are left as they are, and whoever runs the older one is told. */

const SAYS = "newer records: ";

/** What opening them throws, before anything is written. `whose`: "this stall's", "this fair's". */
export const newerRecords = (whose: string, written: number, known: number): Error =>
  new Error(
    `${SAYS}${whose} records are of version ${written}, and this program knows them up to ${known}. Run the newer program again.`,
  );

/** Whether that was thrown. Between objects and the front door an error keeps its message and no more. */
export const areNewerRecords = (error: unknown): boolean =>
  error instanceof Error && error.message.includes(SAYS);
