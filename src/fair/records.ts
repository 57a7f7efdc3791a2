/** The shape of a fair's records. */
import { newerRecords } from "../model/basics/newer-records.ts";
import type { Rows } from "./rows.ts";

/** A store written by a newer shape is not opened. Records without a mark are of shape 1. */
export const FAIR_RECORDS_VERSION = 1;

export const FAIR_SHAPE = "records-version";

/** Throws if a newer program wrote these rows. */
export function mayBeOpened(rows: Pick<Rows, "get">): void {
  const written = rows.get<unknown>(FAIR_SHAPE);
  if (typeof written === "number" && written > FAIR_RECORDS_VERSION)
    throw newerRecords("this fair's", written, FAIR_RECORDS_VERSION);
}
