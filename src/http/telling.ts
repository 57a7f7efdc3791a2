/** What the front door tells a stall of its fair. */
import type { Context } from "hono";
import type { FairFacts, StallToTell } from "../fair/fair.ts";
import type { StallId } from "../model/ids.ts";
import type { App } from "./env.ts";
import { stallOf } from "./stalls.ts";

const identityOf = (
  { fair, name: fairName, timeZone, openings, edition }: FairFacts,
  stall: StallId,
  name: string,
) => ({
  fair,
  stall,
  name,
  fairName,
  timeZone,
  openings: openings.map(({ opens, closes }) => ({ opens: Date.parse(opens), closes: Date.parse(closes) })),
  ...(edition === 0 ? {} : { edition }),
});

/** Opens the stall, or gives it the fair's facts and the keys it now takes. */
export async function tellFacts(
  c: Context<App>,
  { facts, stall, name, generation, earlierUntil }: StallToTell,
): Promise<void> {
  await stallOf(c, { fair: facts.fair, stall }).open(
    identityOf(facts, stall, name),
    generation,
    earlierUntil,
  );
}
