/** Names one write of one caller on one route, and what it said. */
export type WriteKey = {
  /** Role, route and the caller's Idempotency-Key. */
  readonly scope: string;
  readonly fingerprint: string;
};
