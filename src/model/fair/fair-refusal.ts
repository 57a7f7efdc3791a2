/** Why a fair refuses what its owner or organiser asks: typed facts, worded where they are shown. */
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
  /** Texts were sent to another host before, and the owner pins none. */
  | { readonly code: "other-host"; readonly firstHost: string };

/** What a fair answers to its owner or organiser: the value, or why not. */
export type FairAnswer<T> = Result<T, FairRefusal>;
