/** The steps that every crew route shares: read the write's key, and call the stall with the caller's generation. */

import type { Context } from "hono";
import type { FairId, StallId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { Stall } from "../../stall/stall.ts";
import type { App } from "../requests/env.ts";
import { stallOf } from "../requests/objects.ts";
import { refusal } from "../requests/problems.ts";
import { onlyFor } from "./doors.ts";
import { type Guarded, generationOf, writeKey } from "./guard.ts";

export const stallBase = "/v1/fairs/{fair}/stalls/{stall}";
export const crewRoute = { tags: ["crew"], ...onlyFor("crew") };
/** A route for the crew, and for the holder of a link for the press screen only. */
export const pressRoute = { tags: ["crew"], ...onlyFor("crew", "press") };

export type Path = { readonly fair: FairId; readonly stall: StallId };
/** A stall as a route calls it. */
export type StallStub = DurableObjectStub<Stall>;

/** The value of an answer, or its refusal as the response that ends the request. */
export function settled<T>(c: Context<App>, answer: Answer<T>): Guarded<T> {
  return answer.ok ? ok(answer.value) : refused(refusal(c, answer.refusal));
}

/** Reads from the stall for the crew. */
export async function crewRead<T>(
  c: Context<App>,
  path: Path,
  work: (stall: StallStub, generation: number) => Promise<Answer<T>>,
): Promise<Guarded<T>> {
  return settled(c, await work(stallOf(c, path), generationOf(c)));
}

/** Writes to the stall for the crew, once however often it is sent. */
export async function crewWrite<T>(
  c: Context<App>,
  path: Path,
  work: (stall: StallStub, generation: number, key: WriteKey) => Promise<Answer<T>>,
): Promise<Guarded<T>> {
  const key = await writeKey(c, "crew");
  return key.ok ? settled(c, await work(stallOf(c, path), generationOf(c), key.value)) : key;
}
