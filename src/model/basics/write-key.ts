/** Identifies one write of one caller on one route, with its content. */
export type WriteKey = {
  /** Role, route and the caller's Idempotency-Key. */
  readonly scope: string;
  readonly fingerprint: string;
};
