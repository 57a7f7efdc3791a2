/** A fair's refusals to its owner or organiser: typed facts, worded where they are shown. */
import type { Result } from "../basics/result.ts";

export type FairRefusal =
  | { readonly code: "no-such-fair" }
  | { readonly code: "old-key" }
  | { readonly code: "key-reused" }
  | { readonly code: "fair-exists" }
  /** Somebody else changed the fair since this change began. */
  | { readonly code: "fair-changed" }
  | { readonly code: "last-closing-past" }
  | { readonly code: "no-such-stall"; readonly stall: string }
  | { readonly code: "too-many-quarters" }
  /** Texts went to another host before, and the owner pins none. */
  | { readonly code: "other-host"; readonly firstHost: string }
  | { readonly code: "no-more-tries"; readonly most: number }
  /** Said STOP, or is in a country that the mapping does not send to. */
  | { readonly code: "not-texted" }
  /** Has not texted this fair within a day, so it may be anybody's. */
  | { readonly code: "text-first" };

/** A fair's answer to its owner or organiser: a value, or a refusal. */
export type FairAnswer<T> = Result<T, FairRefusal>;
