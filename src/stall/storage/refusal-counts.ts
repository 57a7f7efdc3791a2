/**
 * How often the stall refused, by reason, for the crew to look at when customers say that ordering fails. There is one
 * counter for each reason, so they do not grow. They are outside journal and fold, since they are no facts of the day.
 */

import type { RefusalCounts, RefusalView } from "../../model/orders/refusal-counts.ts";
import type { Instant } from "../../time/instants.ts";
import type { People } from "./people.ts";

/** Counts are written alone at most this often, else with the next write: a flood costs few rows. */
const WRITTEN_EVERY = 30_000;

/** The reason of an answer that is a refusal, else null. */
export function refusalIn(answer: unknown): string | null {
  if (typeof answer !== "object" || answer === null || !("refusal" in answer)) return null;
  const { refusal } = answer;
  const isReason = typeof refusal === "object" && refusal !== null && "code" in refusal;
  return isReason && typeof refusal.code === "string" ? refusal.code : null;
}

/** Counts a refusal; whether it is time to write the counts. */
export function countRefusal({ refusals }: People, code: string, now: Instant): boolean {
  const before = refusals.get("") ?? { writtenAt: 0, counts: {} };
  const count = (before.counts[code]?.count ?? 0) + 1;
  const due = now - before.writtenAt >= WRITTEN_EVERY || now < before.writtenAt;
  refusals.set("", {
    writtenAt: due ? now : before.writtenAt,
    counts: { ...before.counts, [code]: { count, lastAt: now } },
  });
  return due;
}

/** The counts, the most frequent first. */
export function refusalView({ refusals }: People): RefusalView {
  const counts: RefusalCounts = refusals.get("")?.counts ?? {};
  return {
    refusals: Object.entries(counts)
      .map(([type, { count, lastAt }]) => ({
        type: `/problems/${type}`,
        count,
        lastAt: new Date(lastAt).toISOString(),
      }))
      .sort((one, other) => other.count - one.count || (one.type < other.type ? -1 : 1)),
  };
}
