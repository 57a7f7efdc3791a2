/** What a stall tells its fair: the one thing the two objects share. */
import type { StallId } from "../model/ids.ts";
import type { Bucket } from "./bucket.ts";

export type StallReport = {
  readonly stall: StallId;
  /** Grows with every report; an older one that arrives late is ignored. */
  readonly version: number;
  readonly at: number;
  readonly backlog: number;
  readonly soldOut: number;
  /** When all of the backlog is expected to be pressed; null where nothing waits. */
  readonly backlogEnds: number | null;
  /** The buckets that changed since the last report, whole. */
  readonly buckets: readonly (readonly [key: string, bucket: Bucket])[];
};

/** The fair as a stall sees it. */
export type ReportsTo = {
  readonly report: (report: StallReport) => Promise<void>;
};
